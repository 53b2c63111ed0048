"""Drawing with needle and thread: shapes of our own turned into needle lists."""
