"""Fills the fields of a PDF with pypdf: fill-form.py SHEET VALUES.json OUT. Every value must find its field."""
import json
import sys

from pypdf import PdfReader, PdfWriter
from pypdf.generic import BooleanObject, NameObject, TextStringObject

source, values_file, out = sys.argv[1:]
with open(values_file, encoding='utf-8') as file:
    values = json.load(file)
writer = PdfWriter()
writer.clone_document_from_reader(PdfReader(source))


def full_name(field):
    parts = []
    while field is not None:
        if '/T' in field:
            parts.append(field['/T'])
        field = field['/Parent'].get_object() if '/Parent' in field else None
    return '.'.join(reversed(parts))


filled = set()
for page in writer.pages:
    for reference in page.get('/Annots', []):
        widget = reference.get_object()
        if widget.get('/Subtype') != '/Widget':
            continue
        name = full_name(widget)
        if name not in values:
            continue
        value = values[name]
        filled.add(name)
        field = widget if '/FT' in widget else widget['/Parent'].get_object()
        if field['/FT'] == '/Btn':
            if '/' + value in widget['/AP']['/N']:
                widget[NameObject('/AS')] = NameObject('/' + value)
                field[NameObject('/V')] = NameObject('/' + value)
        else:
            field[NameObject('/V')] = TextStringObject(value)

form = writer._root_object['/AcroForm'].get_object()
form[NameObject('/NeedAppearances')] = BooleanObject(True)
if filled != set(values):
    sys.exit('no such field: ' + ', '.join(sorted(set(values) - filled)))
writer.write(out)
