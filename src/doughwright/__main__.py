"""``python -m doughwright`` is the command ``doughwright``."""

from doughwright.cli import main

if __name__ == "__main__":
    main()
