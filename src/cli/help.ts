const build = `thrice build [CASES] --out DIR [--strict] [--json]
             [--cache DIR | --no-cache] [--threads N]
       thrice build [CASES] --out DIR --shard I/N

Builds the discharge sheets, teaching pages and anonymized records of all cases.
CASES is a clinic's folder (with clinic.yaml) or one case folder; the current folder if left out.

  --out DIR   where to put them (default: out). DIR/private is for the clinic alone,
              DIR/public holds only cases whose owners gave consent.
  --strict    one bad case stops the build; without it, the other cases are built.
              A warning that its record does not accept stops it too.
  --json      nothing but its problems and warnings, as "thrice check --json" gives them
  --cache DIR where the work of earlier builds is kept, so that only what has changed is made
              again (default: .thrice-cache-OUT beside the output). It holds what private sheets
              hold, and may be removed at any time. --no-cache keeps nothing.
  --threads N how many threads share the work (default: as many as there are processors, one
              for few cases). The output is the same whatever their number.
  --shard I/N does the work for one of N shares of the cases, from 1 to N, and keeps it in DIR
              for "thrice merge". Shares can be made on as many machines.

The last output stays whole until the new one is.`;

const merge = `thrice merge CASES SHARE... --out DIR [--strict] [--threads N]

Joins the shares that "thrice build --shard" has made: writes what one build of CASES writes, byte
for byte, with the lists, the small groups and the search for identifiers over all cases.
CASES must be the folder of the shares, named by the same path. What a share lacks is made here.

  SHARE...    the folders that the shares were kept in
  --out DIR   as of "thrice build"`;

const check = `thrice check [CASES] [--strict] [--json] [--on YYYY-MM-DD]

Reads all cases and lists every problem with its file, line and field. Writes nothing.
A warning is something that a veterinarian may have meant, such as a dose out of the range
in the clinic's formulary.yaml, or has to look up, such as a medicine that the formulary has no
row for; the record accepts it under its number: accepted because: { T332: "the reason" },
or several of one number with a list of as many reasons, in their order.
Doses of the anesthesia that the formulary has no figure for are named, and are no warning.
Also tells how hard each owner's sheet is to read, and names the sentences that are too hard
and the trade words that are not explained.
A surgery that is still to come is a warning, too: it rests on the day of the check, so no document
and no build tells it, but only this command and "thrice watch".

  --strict   exit code 1 where a warning is not accepted
  --json     one JSON object, for editors: { problems, warnings }, each a list of
             { number, kind, file, line, column, byte, field, found, expected, mend, accepted,
             range }. number: of the kind of problem, as docs/messages.md lists them.
             line and column count from 1, byte from 0 (in a binary file); a key without a value
             is left out. range: { line, column, end }, what to underline; end is the column
             after it. accepted: the record's answer to a warning, or null
  --on DAY   the day of the check (default: today at the clinic)`;

const watch = `thrice watch [CASES] [--port N]

Serves the documents of all cases to a browser on this machine alone, and prints the address.
A change that is saved in a case, in clinic.yaml, in formulary.yaml or in the words of content/ is
on screen at once. A problem stands in the page with its file, line and field until it is mended,
above the page as it was before. PDFs, pictures and data files are made when they are opened.
CASES is a clinic's folder (with clinic.yaml) or one case folder; the current folder if left out.

  --port N   the port (default: one that is free)

Nothing is written, and nothing is published: a public page that a build would keep back is shown
all the same, with the reason. Lists, search and library of the public site are made by the build
alone. Ctrl+C ends it.`;

const strip = `thrice strip FILE --species NAME --weight KG [--lead II] [--sampling-rate HZ]
             [--json] [--out DRAWING [--from TIME] [--to TIME] [--paper A4]]

Reads an ECG strip: an EDF, WFDB (.hea) or CSV file. Counts the beats, marks P, QRS and T,
measures them, tells whether they go with the breath, and names the rhythm or says why not.
Channels of breath (CO2) and pulse (arterial pressure, plethysmogram) in the file help.

  --species NAME      dog, cat, rabbit or ferret
  --weight KG         with its unit, such as 18kg or 40lb
  --lead NAME         the channel to read (default: II)
  --sampling-rate HZ  for a CSV file without a time column
  --json              all results as JSON
  --out DRAWING       the annotated strip as a drawing at true scale: a file ending in .pdf (pages),
                      .svg (one drawing) or .png (one picture of a minute and a half at most)
  --from, --to TIME   draw this stretch only: seconds, like 90, or minutes and seconds, like 1:30
  --paper NAME        of the PDF: A4 or Letter (default: A4)

The JSON is one object. Times and intervals are in seconds, rates in beats/min,
and null stands for what was not computed:

  samplingRate  samples in a second
  duration      of the strip
  quality       { readable, spans: [{ from, to, readable, why }] }
                  the readable share, from 0 to 1, and why a span was withheld
  beats         [{ time, kind, p, qrs, t }], in order; a wave is { onset, peak, end, height,
                  confidence }, its height in mV, and null where it is absent or hidden by noise
  loneP         P waves that no QRS of their own follows, in order
  rate          { mean, shortest, longest, shortWindow: { window, low, high }, longEnough,
                  steadyFrom }
                  over what is known to be beats, null where that is nothing
                  shortest and longest: from beat to beat
                  low to high: what a count over the short window would have shown
                  longEnough: the shortest time in whole seconds for which each count on the
                  strip lies within 5 % of the mean; a longer one may not
                  steadyFrom: the time from which every longer one does, too
  variability   { intervals, pairs, meanNn, sdnn, rmssd, pnn50, caution }, of the
                  intervals between sinus beats (NN) of named sinus rhythms, in the terms of
                  the ESC/NASPE Task Force 1996; null under 20 intervals; pairs: neighbours
                  sdnn: their standard deviation; rmssd: root mean square of the differences from
                  one to the next; pnn50: the share from 0 to 1 that differ by over 50 ms
                  caution: under anesthesia, and over one strip, it describes this strip only
  measures      { pDuration, pHeight, pr, qrs, rHeight, qt, qtcFridericia, qtcVanDeWater, st,
                  tHeight, tToR, axis }, each { unit, value, middleHalf: { from, to }, count,
                  because, lead, verdict, range: { low, high, of, source, note } }
                  value: the median over the beats; because: why there is none
                  range: for awake animals, with its source
  breath        { verdict, doubt, because, source, breaths, beats, period, phases, fromInspiration,
                  follow, rayleigh: { n, meanResultantLength, z, p, meanPhase }, chance: { surrogates, follow,
                  cluster }, cluster: { clustered, afterInspiration }, swing: { longest, shortest,
                  milliseconds, slowestRate, fastestRate, fastestAt } }
                  follow: the share of the swing of the intervals that goes with the breath
                  chance: (k + 1) / (n + 1), where k of n shuffled copies follow it as well
  variant       { isNormalVariant, missing }, null where the beats do not go with the breath;
                  missing: the proofs that there are not
  rhythms       [{ name, from, to, confidence, possible, because, range, within }], the strip from
                  end to end; confidence is null where no rhythm is named ("cannot be told", "not
                  readable"); possible: what it may then be; range: the one used
                  within: [{ name, from, to, confidence, because, patterns, beats }], premature
                  beats, runs and pauses, with the times of their beats
  because       { rate, shortWindow, longEnough, steadyFrom, variability }, why each of them is null:
                  "no samples", "nothing readable", "fewer than two beats", "beats in doubt" (what
                  was found need not be beats), "strip too short", "too few sinus intervals"

The reasons (because of breath, of rhythms and within them) and the range used are each
{ text, key, values }: a sentence, and what it says as data. content/en/reasons.yaml lists the
keys with their sentences and the names of the values: times in seconds, shares from 0 to 1,
mV, mmHg, beats/min; limit is what a value was held against.`;

const facts = `thrice facts CASE [--all | --json]

Shows what a veterinarian checks of a case by eye: the medicines with every dose that matters,
what was given in the clinic, the days, the warnings with their answers, and the rhythm.
CASE is one case folder, or a clinic's folder for all its cases.

  --all    everything that the documents may say: each fact at full precision, with how it came
           about and the fields, rows and samples that it rests on
  --json   the same as JSON: one object for a case, a list of them for several

The JSON holds identity, patient, surgery, anesthesia, vitals, strips, clocks, wound, home, plan,
warnings, consent and published. In it a fact is { value, how, from }; what the record cannot
support is { value: null, why }.`;

const approve = `thrice approve CASE --by NAME [--on YYYY-MM-DD]

Shows what is approved, as "thrice facts" does, and the documents that lose their draft mark;
approves one case folder as it stands and writes that into its approval.yaml. The next build
prints its documents without the draft mark, until a fact changes: then they are drafts again.
A sheet that is approved again names what is new since the sheet before. A case that is approved
as it stands keeps the name that approved it; a second one is not added.

  --by NAME   the veterinarian who has checked the sheet, such as "Dr. Ada Birch"
  --on DAY    the day of the approval (default: today at the clinic)`;

const newCase = `thrice new FOLDER

Asks for the facts of a case, one by one, and writes them into a new case folder: case.yaml,
vitals.csv with its first line, and an empty teaching.md. FOLDER is its name, in a clinic's
folder (with clinic.yaml) or one folder further down, such as my-clinic/cases/juniper.

Each answer is checked at once. Enter skips what is optional and ends a list. Nothing is
written before the last answer, and no folder is ever overwritten.
Answers may come from a pipe, one a line.`;

const key = `thrice key FILE

Draws a secret key of 256 bits at random and writes it to FILE, for your account alone. Under it
published cases get their pseudonyms and their moved dates; who has it can link them back. Name
it in clinic.yaml as "pseudonyms: { key file: FILE }", or put its digits into the environment
variable THRICE_PSEUDONYM_KEY. Keep FILE outside the cases, the output and every repository.

A file that is there is never replaced: under a new key every case gets a new pseudonym.`;

const table = `thrice table FILE [--name NAME]

Reads a sample of a monitor's own table (CSV or the like) and proposes how it is to be read: encoding,
separator or fixed widths, decimals, line of titles, clock, marks for missing readings, and columns, or
the names where each line tells one reading, with their units. What was guessed, and what is not taken,
is said. Put the lines into clinic.yaml, check them against
the monitor, and name the form in a case: monitor: { vitals: FILE, table: NAME }. Writes nothing.

  --name NAME   what records call the form (default: our monitor)`;

export const HELP = {
  build,
  merge,
  check,
  watch,
  strip,
  facts,
  approve,
  key,
  table,
  new: newCase,
  all: `thrice: one surgery record, told three times

  thrice new FOLDER                 ask for the facts of a case and write its folder
  thrice build [CASES] --out DIR    owner's sheets, teaching pages and anonymized records
  thrice merge CASES SHARE...       join the shares of a build that was split
  thrice check [CASES]              every problem of the records, nothing written
  thrice watch [CASES]              preview that follows each saved change, for this machine alone
  thrice strip FILE --species …     count the beats on an ECG strip
  thrice facts CASE                 what to check of a case by eye; every fact with --all
  thrice approve CASE --by NAME     take the draft mark off a checked case
  thrice table FILE                 propose how a monitor's own table is read
  thrice key FILE                   draw the secret key for pseudonyms

  thrice COMMAND --help             how to use a command
  thrice --version

Exit codes
  0  done; warnings may have been shown
  1  a problem, shown with its place and its number: each is explained in docs/messages.md;
     or, under --strict or in approve, a warning that the record does not answer;
     or, in new, answers that end before the case is complete
  2  the command was not understood; nothing was done
  3  a fault of the program, please report it
Above 128, a signal ended it: 130 is Ctrl-C.

All documents are drafts until a veterinarian approves them.`,
} as const;
