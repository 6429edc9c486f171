"""``python -m planner`` is the same program as the command ``fitwright``."""

from planner.cli import main

if __name__ == "__main__":
    main()
