/** What every page of the public site has: marks that scripts run, so that controls without them stay hidden. */
document.documentElement.classList.add('scripted');
