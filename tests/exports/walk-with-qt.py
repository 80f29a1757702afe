"""Walks from standard input (JSON: lists of events) through an SCXML file; writes the state after the start and each event."""

import json
import sys

from PySide2.QtCore import QCoreApplication
from PySide2.QtScxml import QScxmlStateMachine

application = QCoreApplication([])


def walked(file, events):
    chart = QScxmlStateMachine.fromFile(file)
    if chart.parseErrors():
        raise SystemExit("\n".join(error.toString() for error in chart.parseErrors()))
    chart.start()

    def rest():
        for _ in range(4):
            application.processEvents()
        return " ".join(chart.activeStateNames())

    states = [rest()]
    for event in events:
        chart.submitEvent(event)
        states.append(rest())
    return states


print(json.dumps([walked(sys.argv[1], events) for events in json.load(sys.stdin)]))
