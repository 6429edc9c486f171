"""Rules of fit: functions of scale that know where they turn."""
