"""Drives LibreOffice Calc for the tests: one JSON object a line in, one out. The office is started and ended here."""

import json
import subprocess
import sys
import time

import uno
from com.sun.star.beans import NamedValue, PropertyValue
from com.sun.star.connection import NoConnectException

PROFILE, PIPE = sys.argv[1:]
FILTERS = {"xlsx": "Calc MS Excel 2007 XML", "ods": "calc8"}
FORMULA = 16


def named(kind, name, value):
    one = kind()
    one.Name, one.Value = name, value
    return one


def connected():
    local = uno.getComponentContext()
    resolver = local.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", local)
    for _ in range(600):
        try:
            return resolver.resolve(f"uno:pipe,name={PIPE};urp;StarOffice.ComponentContext")
        except NoConnectException:
            time.sleep(0.1)
    raise SystemExit("the office did not start")


office = subprocess.Popen(
    ["soffice", "--headless", "--norestore", "--nologo", f"-env:UserInstallation={PROFILE}"]
    + [f"--accept=pipe,name={PIPE};urp;"],
    stdout=subprocess.DEVNULL,
    stderr=subprocess.DEVNULL,
)
context = connected()
service = context.ServiceManager.createInstanceWithContext
desktop = service("com.sun.star.frame.Desktop", context)
menu = service("org.pinset.Menu", context)
book = None


def values_of(area):
    """The cells' values; an error, which the bulk of values holds as nothing, by its number."""
    return [
        [
            {"error": area.getCellByPosition(column, row).getError()} if value is None else value
            for column, value in enumerate(values)
        ]
        for row, values in enumerate(area.getDataArray())
    ]


def letters(column):
    return (letters(column // 26 - 1) if column > 25 else "") + chr(65 + column % 26)


def results_in(sheet):
    """Formula and value of each cell that has a formula, by its address."""
    found = {}
    for area in sheet.queryContentCells(FORMULA):
        at = area.getRangeAddress()
        for row, (formulas, values) in enumerate(zip(area.getFormulaArray(), values_of(area))):
            for column, (formula, value) in enumerate(zip(formulas, values)):
                found[f"{letters(at.StartColumn + column)}{at.StartRow + row + 1}"] = [formula, value]
    return found


def opened(url):
    global book
    if book is not None:
        book.close(True)
    book = desktop.loadComponentFromURL(url, "_blank", 0, (named(PropertyValue, "Hidden", True),))


def at(asked):
    return book.Sheets.getByName(asked["sheet"]).getCellRangeByName(asked["range"])


def answer(asked):
    what = asked["do"]
    if what == "new":
        opened("private:factory/scalc")
        return book.Sheets.getByIndex(0).Name
    if what == "open":
        return opened(uno.systemPathToFileUrl(asked["file"]))
    if what == "save":
        kind = named(PropertyValue, "FilterName", FILTERS[asked["file"].rsplit(".", 1)[1]])
        return book.storeToURL(uno.systemPathToFileUrl(asked["file"]), (kind,))
    if what == "cells":
        return at(asked).setDataArray(tuple(tuple(row) for row in asked["values"]))
    if what == "formula":
        at(asked).Formula = asked["formula"]
        return None
    if what == "array":
        return at(asked).setArrayFormula(asked["formula"])
    if what == "read":
        return values_of(at(asked))
    if what == "formulas":
        return {sheet.Name: results_in(sheet) for sheet in book.Sheets}
    if what == "select":
        return book.getCurrentController().select(at(asked))
    if what == "from1904":
        first = book.NullDate
        first.Year, first.Month, first.Day = 1904, 1, 1
        book.NullDate = first
        return None
    if what == "format":
        return book.NumberFormats.getByKey(at(asked).NumberFormat).FormatString
    if what == "calculate":
        return book.calculateAll()
    if what == "menu":
        return menu.execute((named(NamedValue, "entry", asked["entry"]), named(NamedValue, "workbook", book)))
    if what == "wizard":
        functions = service("com.sun.star.sheet.FunctionDescriptions", context)
        described = ({one.Name: one.Value for one in functions.getByIndex(n)} for n in range(functions.getCount()))
        return {
            one["Name"]: [one["Description"], [[argument.Name, argument.Description] for argument in one["Arguments"]]]
            for one in described
            if one["Name"].startswith("PINSET.")
        }
    raise ValueError(what)


for line in sys.stdin:
    try:
        print(json.dumps({"is": answer(json.loads(line))}), flush=True)
    except Exception as fault:
        print(json.dumps({"fault": f"{type(fault).__name__}: {fault}"}), flush=True)
try:
    desktop.terminate()
except Exception:
    pass
try:
    office.wait(20)
except subprocess.TimeoutExpired:
    office.kill()
