"""A cook's readings: jar heights, dough temperatures and thermometer logs, with the errors they carry."""
