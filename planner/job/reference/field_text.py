"""What stands under each field of a record in its source: the sentence that says what the field means."""

from __future__ import annotations

import ast
import inspect
import textwrap
from functools import cache


@cache
def field_texts(record: type) -> dict[str, str]:
    """Return the texts under a record's fields, by field; Python keeps them in the source only."""
    tree = ast.parse(textwrap.dedent(inspect.getsource(record))).body[0]
    assert isinstance(tree, ast.ClassDef)
    texts = {}
    for field, after in zip(tree.body, tree.body[1:], strict=False):
        if not isinstance(field, ast.AnnAssign) or not isinstance(field.target, ast.Name):
            continue
        if isinstance(after, ast.Expr) and isinstance(after.value, ast.Constant) and isinstance(after.value.value, str):
            texts[field.target.id] = " ".join(after.value.value.split())
    return texts
