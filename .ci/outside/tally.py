# Counts outside checks.
#
# in:  the name of each check, what it looked at, and the problems it found (none is good)
# out: a line on stdout for each problem, and once what to do about its kind; one line `pass` or
#      `fail` for each check at the end of the file that the variable CI_TALLY names, if it does
import os


class Tally:
    def __init__(self):
        self.passed = self.failed = 0
        self.advised = set()

    def record(self, check, subject, problems, advice=""):
        """Counts one check as passed when `problems` is empty, otherwise as failed."""
        for problem in problems:
            print(f"FAIL {check}: {subject}: {problem}")
        if problems and advice and advice not in self.advised:
            self.advised.add(advice)
            print(f"     what to do: {advice}")
        self.failed += bool(problems)
        self.passed += not problems
        if os.environ.get("CI_TALLY"):
            with open(os.environ["CI_TALLY"], "a", encoding="utf-8") as file:
                file.write("fail\n" if problems else "pass\n")

    def close(self, what):
        """Says how it went; the value is the exit code."""
        print(f"{what}: {self.passed} held, {self.failed} did not")
        return 1 if self.failed or not self.passed else 0
