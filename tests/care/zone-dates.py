"""Dose times by Python's zoneinfo: a second implementation of time zones to compare with.

Reads a JSON list of plans, {zone, last, minutes, doses} with `last` a local time, and writes for each the local times
with their offsets: the first dose `minutes` of elapsed time after `last`, then every `minutes`.
"""
import json
import sys
from datetime import datetime, timedelta, timezone
from zoneinfo import ZoneInfo

answers = []
for plan in json.load(sys.stdin):
    zone = ZoneInfo(plan["zone"])
    last = datetime.fromisoformat(plan["last"]).replace(tzinfo=zone).astimezone(timezone.utc)
    doses = [last + timedelta(minutes=plan["minutes"] * (index + 1)) for index in range(plan["doses"])]
    answers.append([dose.astimezone(zone).isoformat(timespec="minutes") for dose in doses])
json.dump(answers, sys.stdout)
