"""What each command does, free of the command line: plain arguments in, exit status out."""
