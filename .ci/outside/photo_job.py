# A job made for a check of photos, and the pictures that its evidence file prints.
#
# in:    a folder to work in, the profile of a workshop, the program
# out:   the job's folder; pictures by the names of their files, and what went wrong
# needs: pdfimages
import shutil
import subprocess

from PIL import Image


def new_job(work, number, workshop):
    """An empty job folder below `work`, beside a copy of the profile and what it may name."""
    shutil.rmtree(work, ignore_errors=True)
    job = work / number
    job.mkdir(parents=True)
    if workshop:
        for file in workshop.parent.iterdir():
            if file.is_file():
                shutil.copy(file, work)
    return job


def printed(binary, job, out):
    """The photos of the evidence file as (file name, picture) in the order of the sheet, and problems."""
    done = subprocess.run([binary, "render", job, "--out", out, "--paper", "evidence-file"],
                          capture_output=True, text=True, stdin=subprocess.DEVNULL)
    pdfs = sorted(out.rglob("*.pdf"))
    if done.returncode or not pdfs:
        return [], [f"render ends with {done.returncode} and {len(pdfs)} PDFs: "
                    f"{done.stdout}{done.stderr}"]
    for pdf in pdfs:
        subprocess.run(["pdfimages", "-all", pdf, pdf.with_suffix("")], check=True)
    # Photos are JPEG; line art and masks come out as other kinds.
    return [(path.name, Image.open(path)) for path in sorted(out.rglob("*.jpg"))], []
