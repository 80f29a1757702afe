# Fills the form of a PDF with pypdf (Debian python3-pypdf), which is not ours: fill-form.py IN OUT, and on standard
# input a JSON object of field names to texts, to `true` for a tick, and to the value of a circle.
import json
import sys

from pypdf import PdfReader, PdfWriter
from pypdf.generic import NameObject, TextStringObject


def full_name(field):
    parts = []
    while field is not None:
        if "/T" in field:
            parts.insert(0, field["/T"])
        field = field["/Parent"].get_object() if "/Parent" in field else None
    return ".".join(parts)


def inherited(field, key):
    while field is not None:
        if key in field:
            return field[key]
        field = field["/Parent"].get_object() if "/Parent" in field else None
    return None


wanted = json.load(sys.stdin)
writer = PdfWriter()
writer.clone_document_from_reader(PdfReader(sys.argv[1]))
filled = set()
for page in writer.pages:
    for reference in page.get("/Annots", []):
        widget = reference.get_object()
        if widget.get("/Subtype") != "/Widget":
            continue
        name = full_name(widget)
        if name not in wanted:
            continue
        value = wanted[name]
        if inherited(widget, "/FT") == "/Tx":
            holder = widget if "/T" in widget else widget["/Parent"].get_object()
            holder[NameObject("/V")] = TextStringObject(value)
            filled.add(name)
            continue
        states = [state for state in widget["/AP"]["/N"] if state != "/Off"]
        on = states[0] if value is True else "/" + value
        if on not in states:
            continue
        holder = widget if "/T" in widget else widget["/Parent"].get_object()
        holder[NameObject("/V")] = NameObject(on)
        widget[NameObject("/AS")] = NameObject(on)
        filled.add(name)
missing = sorted(set(wanted) - filled)
if missing:
    sys.exit("no such field: " + ", ".join(missing))
with open(sys.argv[2], "wb") as out:
    writer.write(out)
