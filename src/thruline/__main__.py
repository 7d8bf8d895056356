"""`python -m thruline`, and the command `thruline`."""

from thruline.cli.main import run


def main() -> None:
    """Run the command line and leave with its exit code."""
    raise SystemExit(run())


if __name__ == "__main__":
    main()
