"""Pinset's functions in LibreOffice Calc: hands each call to the engine, a Node.js process, as one line of JSON."""

import glob
import json
import os
import shutil
import struct
import subprocess
import sys
import tempfile
import threading

import uno
import unohelper
from com.sun.star.awt.MessageBoxType import INFOBOX
from com.sun.star.beans import PropertyValue
from com.sun.star.lang import XServiceInfo
from com.sun.star.task import XJob, XJobExecutor
from org.pinset import XFunctions

SERVICE = "Pinset"
MENU_SERVICE = "org.pinset.Menu"
HERE = os.path.dirname(os.path.abspath(__file__))

# Calc's own numbers for the errors a cell shows: an error is a NaN whose lower half holds one.
NUMBERS = {
    "#NULL!": 521,
    "#DIV/0!": 532,
    "#VALUE!": 519,
    "#REF!": 524,
    "#NAME?": 525,
    "#NUM!": 503,
    "#N/A": 32767,
}
FORMATS = {"date": "YYYY-MM-DD", "dateTime": "YYYY-MM-DD HH:MM", "percent": "0.0%"}
NO_NODE = "Pinset needs Node.js 20.19 or later: install it from nodejs.org, then start LibreOffice again"
STOPPED = "Pinset's engine stopped: calculate again with Ctrl+Shift+F9"
REFUSED = (
    "Calc does not call a function that is given a cell with an error (Err:504). "
    "Correct that cell, or write IFERROR(…; \"\") around the range."
)
# The window waits for an answer: so long for any, and for one that may take long before the rule of thumb is taken, unless
# whoever starts the office gives plans more time.
SECONDS = 60
SECONDS_FOR_LONG = float(os.environ.get("PINSET_PLAN_SECONDS", 10))


def error_number(code):
    return struct.unpack("<d", struct.pack("<II", NUMBERS.get(code, 519), 0x7FF80000))[0]


def node_program():
    """Where Node.js is, or None. Programs started from a desktop do not see what a shell's path has."""
    found = shutil.which("node") or shutil.which("nodejs")
    if found:
        return found
    home = os.path.expanduser("~")
    for pattern in (
        os.path.join(os.environ.get("ProgramFiles", "C:\\Program Files"), "nodejs", "node.exe"),
        os.path.join(os.environ.get("LOCALAPPDATA", home), "Programs", "nodejs", "node.exe"),
        "/opt/homebrew/bin/node",
        "/usr/local/bin/node",
        "/usr/bin/node",
        "/snap/bin/node",
        os.path.join(home, ".nvm", "versions", "node", "*", "bin", "node"),
    ):
        for path in sorted(glob.glob(pattern), reverse=True):
            if os.access(path, os.X_OK):
                return path
    return None


class Engine:
    """The process that calculates. Started by the first call, and again when it has died; ends with the office."""

    def __init__(self):
        self.lock = threading.Lock()
        self.process = None

    def start(self):
        node = node_program()
        if node is None:
            raise FileNotFoundError(NO_NODE)
        hidden = {"creationflags": subprocess.CREATE_NO_WINDOW} if sys.platform == "win32" else {}
        self.process = subprocess.Popen(
            [node, os.path.join(HERE, "engine.js")],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            **hidden,
        )

    def stop(self):
        if self.process is not None:
            self.process.kill()
            self.process.wait()
            self.process = None

    def ask(self, question, seconds=SECONDS):
        """The engine's answer, or a sentence why there is none. A process that died or hangs is replaced."""
        line = (json.dumps(question) + "\n").encode()
        with self.lock:
            try:
                try:
                    return self.answer(line, seconds)
                except BrokenPipeError:
                    # It died after it was last looked at, and has not heard the question.
                    self.stop()
                    return self.answer(line, seconds)
            except FileNotFoundError as fault:
                return {"failed": str(fault)}
            except OSError as fault:
                self.stop()
                return {"failed": f"Pinset's engine could not be started or reached ({fault})"}

    def answer(self, line, seconds):
        if self.process is None or self.process.poll() is not None:
            self.stop()
            self.start()
        watch = threading.Timer(seconds, self.process.kill)
        watch.start()
        try:
            self.process.stdin.write(line)
            self.process.stdin.flush()
            answer = self.process.stdout.readline()
        finally:
            watch.cancel()
        if answer:
            return json.loads(answer)
        self.stop()
        return {"failed": STOPPED}


ENGINE = Engine()


def cell_of(value):
    """A cell as the engine takes it: what is blank is None."""
    if value is None or value == "":
        return None
    return value if isinstance(value, (bool, int, float, str)) else str(value)


def grid_of(given):
    """A grid of cells; None for an argument left out."""
    if given is None:
        return None
    if isinstance(given, tuple):
        return [[cell_of(cell) for cell in row] for row in given]
    return [[cell_of(given)]]


def shown(cell):
    if isinstance(cell, dict):
        return error_number(cell["code"]) if "code" in cell else float(cell["value"])
    if isinstance(cell, bool):
        return 1.0 if cell else 0.0
    return float(cell) if isinstance(cell, (int, float)) else cell


def date_system(workbook):
    """The year that the workbook counts its days from."""
    first = workbook.getPropertyValue("NullDate") if workbook is not None else None
    return 1904 if first is not None and first.Year == 1904 else 1900


def calling(name, takes_long):
    def call(self, workbook, *given):
        question = {"call": name, "grids": [grid_of(one) for one in given], "dateSystem": date_system(workbook)}
        answer = ENGINE.ask(question, SECONDS_FOR_LONG if takes_long else SECONDS)
        # Whatever became of the engine, a fresh one may answer.
        if answer.get("failed") == STOPPED:
            answer = ENGINE.ask({**question, "quick": True} if takes_long else question)
        if "failed" in answer:
            return ((answer["failed"],),)
        return tuple(tuple(shown(cell) for cell in row) for row in answer["rows"])

    return call


class Functions(unohelper.Base, XFunctions, XServiceInfo):
    def __init__(self, context, *_):
        self.context = context

    def getImplementationName(self):
        return SERVICE

    def supportsService(self, name):
        return name in self.getSupportedServiceNames()

    def getSupportedServiceNames(self):
        return (SERVICE, "com.sun.star.sheet.AddIn")


with open(os.path.join(HERE, "functions.json"), encoding="utf-8") as functions:
    for one in json.load(functions):
        setattr(Functions, one["name"], calling(one["name"], one["takesLong"]))


class Menu(unohelper.Base, XJobExecutor, XJob, XServiceInfo):
    """The menu: what is wrong, and how results read. The engine looks through a copy of the open workbook."""

    def __init__(self, context, *_):
        self.context = context

    def getImplementationName(self):
        return MENU_SERVICE

    def supportsService(self, name):
        return name == MENU_SERVICE

    def getSupportedServiceNames(self):
        return (MENU_SERVICE,)

    def trigger(self, word):
        """An entry of the menu was chosen."""
        desktop = self.context.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", self.context)
        workbook = desktop.getCurrentComponent()
        window = workbook.getCurrentController().getFrame().getContainerWindow()
        text = ENTRIES[word](workbook)
        window.getToolkit().createMessageBox(window, INFOBOX, 1, "Pinset", text).execute()

    def execute(self, given):
        """The same for a macro: `entry` and `workbook` in, the sentences out."""
        named = {one.Name: one.Value for one in given}
        return ENTRIES[named["entry"]](named["workbook"])


MOST_LINES = 20


def option(name, value):
    return PropertyValue(Name=name, Value=value)


def report(workbook):
    """The formulas of the workbook that call Pinset, as the engine sees them in a copy; a sentence where it fails."""
    folder = tempfile.mkdtemp(prefix="pinset-")
    try:
        path = os.path.join(folder, "copy.xlsx")
        workbook.storeToURL(uno.systemPathToFileUrl(path), (option("FilterName", "Calc MS Excel 2007 XML"),))
        answer = ENGINE.ask({"report": path})
    finally:
        shutil.rmtree(folder, ignore_errors=True)
    return answer.get("formulas", []), answer.get("failed")


def place(address):
    """Column and row from 0 of an address such as B7."""
    letters = address.rstrip("0123456789")
    column = 0
    for letter in letters:
        column = column * 26 + ord(letter) - 64
    return column - 1, int(address[len(letters):]) - 1


def faults_in(workbook, formulas):
    """Each cell without an answer: its sheet, its address, and the line that says why."""
    for formula in formulas:
        sheet, first = formula["sheet"], formula["cell"]
        if workbook.Sheets.getByName(sheet).getCellRangeByName(first).getError() == 504:
            yield sheet, first, f"{first}: {REFUSED}"
            continue
        for fault in formula["faults"]:
            yield sheet, fault["cell"], f"{fault['cell']}: {fault['code']} {fault['reason']}".rstrip()


def wrong_here(workbook):
    area = workbook.getCurrentSelection().getRangeAddress()
    selected = workbook.Sheets.getByIndex(area.Sheet).Name
    formulas, failed = report(workbook)
    if failed:
        return failed
    lines = []
    for sheet, cell, line in faults_in(workbook, formulas):
        column, row = place(cell)
        is_inside = area.StartColumn <= column <= area.EndColumn and area.StartRow <= row <= area.EndRow
        if sheet == selected and is_inside:
            lines.append(line)
    return "\n".join(lines[:MOST_LINES]) or "Pinset finds nothing wrong in the selected cells."


def wrong_in(workbook):
    formulas, failed = report(workbook)
    if failed:
        return failed
    faults = list(faults_in(workbook, formulas))
    if not faults:
        return "Every Pinset formula of this workbook has its answer."
    sheet, first, _ = faults[0]
    controller = workbook.getCurrentController()
    if controller is not None:
        target = workbook.Sheets.getByName(sheet)
        controller.setActiveSheet(target)
        controller.select(target.getCellRangeByName(first))
    cells = "1 cell has" if len(faults) == 1 else f"{len(faults)} cells have"
    lines = [f"{cells} no answer. The first one is selected."]
    lines += [f"{name}.{line}" for name, _, line in faults[:MOST_LINES]]
    if len(faults) > MOST_LINES:
        lines.append(f"and {len(faults) - MOST_LINES} more")
    return "\n".join(lines)


def format_results(workbook):
    formulas, failed = report(workbook)
    if failed:
        return failed
    known = workbook.NumberFormats
    locale = uno.createUnoStruct("com.sun.star.lang.Locale")
    count = 0
    for formula in formulas:
        sheet = workbook.Sheets.getByName(formula["sheet"])
        left, top = place(formula["cell"])
        for row, formats in enumerate(formula["formats"]):
            for column, name in enumerate(formats):
                code = FORMATS.get(name)
                if code is None:
                    continue
                key = known.queryKey(code, locale, False)
                cell = sheet.getCellByPosition(left + column, top + row)
                cell.NumberFormat = key if key >= 0 else known.addNew(code, locale)
                count += 1
    return f"{count} cells show dates and percentages now." if count else "No result here is a date or a percentage."


def read_names(workbook):
    """Brings Pinset's formulas of a file that Excel saved to life: before 25.2 Calc does not know their stored names."""
    if not workbook.hasLocation() or not workbook.getURL().lower().endswith((".xlsx", ".xlsm")):
        return "Open the .xlsx file that Excel saved, then choose this again."
    path = uno.fileUrlToSystemPath(workbook.getURL())
    start, end = os.path.splitext(path)
    copy = f"{start} (Calc){end}"
    if os.path.exists(copy):
        return f"{os.path.basename(copy)} is there already: open it, or give it another name."
    answer = ENGINE.ask({"rename": path, "into": copy})
    if "failed" in answer:
        return answer["failed"]
    return f"{os.path.basename(copy)} has the formulas as Calc reads them. Open it; the file you have open is unchanged."


ENTRIES = {"here": wrong_here, "workbook": wrong_in, "format": format_results, "names": read_names}


g_ImplementationHelper = unohelper.ImplementationHelper()
g_ImplementationHelper.addImplementation(Functions, SERVICE, (SERVICE, "com.sun.star.sheet.AddIn"))
g_ImplementationHelper.addImplementation(Menu, MENU_SERVICE, (MENU_SERVICE,))
