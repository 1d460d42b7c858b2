"""`wirer kinds`: the catalogue, and what there is to know about one kind."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import click

from wirer.circuit.errors import shown
from wirer.command.examples import examples
from wirer.command.near import MOST_MEANT, either, near_names
from wirer.command.output import coloured, put, put_data
from wirer.command.refusal import RefusalError

if TYPE_CHECKING:
    from wirer.circuit.kind import Kind


@click.command(
    short_help="List the kinds of parts, or show one of them.",
    epilog=examples(
        "wirer kinds",
        "wirer kinds toggle-2p-on-on-on",
    ),
)
@click.argument("kind", required=False)
@click.option("--json", "as_json", is_flag=True, help="Write it as JSON.")
def kinds(kind: str | None, *, as_json: bool) -> None:
    """List the kinds of parts, or show KIND: its lugs, positions, contacts and values."""
    from wirer.command import kind_layout

    if kind is None:
        from wirer.circuit.catalogue import catalogue

        if as_json:
            _put_json({"kinds": [_summary(each) for each in catalogue()]})
        else:
            put(kind_layout.catalogue_lines(catalogue(), colour=coloured()))
        return
    found = _kind(kind)
    if as_json:
        import msgspec

        _put_json(msgspec.to_builtins(found, enc_hook=dict))
    else:
        put(kind_layout.kind_lines(found, colour=coloured()))


def _kind(wished: str) -> Kind:
    from wirer.circuit.catalogue import catalogue_kind, kind_ids

    if wished not in kind_ids():
        text = f'kinds: there is no kind "{shown(wished)}"; {_meant(wished)}'
        raise RefusalError(text)
    return catalogue_kind(wished)


def _meant(wished: str) -> str:
    """Return which kinds may be meant by their ids or by a word of their names."""
    from wirer.circuit.catalogue import catalogue, kind_ids

    word = wished.strip().casefold()
    spoken = [kind.id for kind in catalogue() if word and word in _searched(kind)]
    near = near_names(wished, kind_ids()) or spoken[:MOST_MEANT]
    return f"is it {either(near)}?" if near else "`wirer kinds` lists them"


def _searched(kind: Kind) -> str:
    return "\n".join((kind.name, *kind.search)).casefold()


def _summary(kind: Kind) -> dict[str, Any]:
    return {
        "id": kind.id,
        "name": kind.name,
        "group": kind.group,
        "letter": kind.letter,
        "lugs": [lug.name for lug in kind.lugs],
        "positions": list(kind.actuator.positions) if kind.actuator else [],
    }


def _put_json(record: dict[str, Any]) -> None:
    put_data([json.dumps(record, ensure_ascii=False, indent=1), "\n"])
