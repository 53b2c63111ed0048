"""The words of the program as the gettext tools take them from its files."""
import os
import subprocess

KEYWORDS = ["_", "N_", "C_:1c,2", "NC_:1c,2", "g_dgettext:2", "g_dngettext:2,3", "g_dcgettext:2", "g_dpgettext2:2c,3"]


def xgettext(top, paths):
    """The template of the words in these files, and what the tool had to say."""
    command = ["xgettext", "--from-code=UTF-8", "--add-comments=Translators", "--sort-by-file", "-o", "-"]
    command += [f"--keyword={keyword}" for keyword in KEYWORDS]
    done = subprocess.run(command + paths, cwd=top, capture_output=True, text=True)
    said = (done.stderr + (f"status {done.returncode}" if done.returncode else "")).strip()
    return done.stdout.replace("charset=CHARSET", "charset=UTF-8"), said


def listed(top, name="POTFILES.in"):
    """The lines of a list in po/ that are no comments."""
    with open(os.path.join(top, "po", name), encoding="utf-8") as file:
        return [line.strip() for line in file if line.strip() and not line.startswith("#")]
