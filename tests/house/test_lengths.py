"""Files, classes and functions stay short enough to be read at one go."""

import ast

FILE_LINES = 400
FUNCTION_LINES = 40
CLASS_LINES = 250
LONG_CLASSES = {
    "benchassist/ui/shell.py: Shell": 360,
    "benchassist/ui/session.py: Session": 300,
}
"""What may be longer, and up to what: one method for each thing that can be asked of them."""


def code_lines(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Lines of a function from `def` to its end, without its docstring."""
    lines = (function.end_lineno or 0) - function.lineno + 1
    first = function.body[0]
    if ast.get_docstring(function) is not None:
        lines -= (first.end_lineno or 0) - first.lineno + 1
    return lines


def test_files_are_short(texts: dict[str, str]) -> None:
    long = {
        path: text.count("\n")
        for path, text in texts.items()
        if path.endswith(".py") and text.count("\n") > FILE_LINES
    }
    assert long == {}


def test_functions_are_short(program: dict[str, str]) -> None:
    long = {
        f"{path}: {node.name}": code_lines(node)
        for path, text in program.items()
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
        and code_lines(node) > FUNCTION_LINES
    }
    assert long == {}


def test_classes_are_short(program: dict[str, str]) -> None:
    long = {
        f"{path}: {node.name}": (node.end_lineno or 0) - node.lineno + 1
        for path, text in program.items()
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.ClassDef)
        and (node.end_lineno or 0) - node.lineno + 1 > CLASS_LINES
    }
    assert {name for name, lines in long.items() if lines > LONG_CLASSES.get(name, 0)} == set()
    assert set(long) == set(LONG_CLASSES), "a class that became short leaves the list"
