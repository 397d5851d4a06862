#!/usr/bin/env python3
"""Holds what the program prints with --json to the schemas of cli/schemas, by a validator that is not ours:
validate.py PROGRAM [PAGE_ANSWERS]; the second program prints what only a page asks for. Leaves with 77, which ctest takes as skipped, where python3-jsonschema is not installed. A key that no schema lists is
a fault; ACREWRIGHT_UPDATE=1 writes it into its schema, as what it is in this document: look at it before it is committed."""
import copy
import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

try:
    from jsonschema import Draft202012Validator
except ImportError:
    sys.exit(77)

program = pathlib.Path(sys.argv[1]).resolve()
page_answers = pathlib.Path(sys.argv[2]).resolve() if len(sys.argv) > 2 else None
OF_PAGES = {'acrewright.page/1', 'acrewright.givens/1', 'acrewright.text/1', 'acrewright.texts/1'}
root = pathlib.Path(__file__).resolve().parents[2]
schemas = {}
files = {}
for file in sorted((root / 'cli/schemas').glob('*.json')):
    schema = json.loads(file.read_text())
    Draft202012Validator.check_schema(schema)
    schemas[schema['properties']['schema']['const']] = schema
    files[schema['properties']['schema']['const']] = file

FIRST = 'examples/01-first-price.job'
ROWS = 'examples/03-rows-or-field.job'
BOOK = ['--book', 'examples/quote-book']
COMMANDS = [
    ['price', FIRST], ['price', ROWS, '--option', 'Tree rows, two pulls'], ['price', 'examples/15-what-it-scales.job'],
    ['price', 'examples/07-three-fields.job'], ['price', 'examples/16-from-a-map.job'],
    ['explain', FIRST, '--depth', '4'], ['explain', FIRST, 'crawler.burn'], ['sensitivity', FIRST], ['sensitivity', ROWS],
    ['compare', ROWS], ['compare', FIRST, 'examples/06-far-away.job'], ['bridge', FIRST, 'examples/06-far-away.job'],
    ['break-even', FIRST, '--vary', 'area', '--until', 'price.per_unit=$1,000/ac', '--between', '10 ac..300 ac'],
    ['break-even', FIRST, '--vary', 'area', '--market', '$900/ac', '--between', '5 ac..300 ac'],
    ['workbook', ROWS, '--write', 'rows.xlsx'], ['workbook', FIRST, '--read', 'changed.csv'],
    ['break-even', ROWS, '--vary', 'area', '--against', 'Tree rows, two pulls'],
    ['grid', FIRST, '--along', 'area=20 ac,40 ac', '--along', 'depth=4 ft,5 ft'], ['risk', FIRST, '--trials', '256'],
    ['rate-card', 'examples/17-rip-only.job', '--rows', 'area=20 ac,40 ac', '--columns', 'depth=4 ft,5 ft', '--date', '2027-01-15'],
    ['calendar', 'examples/18-three-counties.job'], ['calendar', 'examples/14-old-block-to-rows.job'],
    ['season', 'examples', '--another', 'crawler', '--without', '02-closer-pulls'], ['season', 'examples', '--fleet', 'crawler=Hazel,Dora'],
    ['book', 'examples/quote-book', '--as-of', '2027-08-10'], ['verify', 'examples/quote-book'],
    ['variance', '2027-001', 'examples/logs/2027-001.csv', *BOOK], ['variance', *BOOK], ['crew', '2027-001', *BOOK],
    ['learn', *BOOK, '--season', 'examples/2027.season'], ['outcomes', *BOOK],
    ['bill', '2027-001', '--posted', 'examples/posted-diesel.csv', '--date', '2027-07-06', '--draft', *BOOK],
    ['field', 'examples/fields/quillon-square.geojson'],
    ['check', FIRST, 'models/deep-rip.rate', 'models/library/power.rate', 'examples/2027.season'], ['check', FIRST, '--plan'],
    ['check', 'slip.rate', 'slip.job'], ['price', 'slip.job'], ['price', FIRST, '--set', 'aera=3 ac'], ['price', 'no.job'], ['no-command'],
    ['codes'], ['codes', 'U303'], ['library'], ['library', 'field_capacity'], ['words'], ['words', 'given'],
    ['measures'], ['measures', '45 gal/h', 'in', 'L/h'], ['try', '2 ac / 1 h'], ['try', 'price.total', '--job', FIRST],
]
passed = failed = 0


def check(what, good, detail=''):
    global passed, failed
    passed, failed = (passed + 1, failed) if good else (passed, failed + 1)
    if not good:
        print('failed:', what, detail)


def within(schema, whole):
    return whole['$defs'][schema['$ref'].rsplit('/', 1)[1]] if '$ref' in schema else schema


def in_order(value, schema, whole):
    """Keys come in the order in which the schema lists them."""
    schema = within(schema, whole)
    if isinstance(value, dict):
        listed = list(schema.get('properties', {}))
        places = [listed.index(key) for key in value if key in listed]
        return places == sorted(places) and all(
            in_order(inner, schema['properties'][key] if key in listed else schema.get('additionalProperties', {}), whole)
            for key, inner in value.items())
    if isinstance(value, list):
        return all(in_order(inner, schema.get('items', {}), whole) for inner in value)
    return True


def as_it_is(value):
    """The schema of one value."""
    kind = {type(None): 'null', bool: 'boolean', int: 'number', float: 'number', str: 'string', list: 'array', dict: 'object'}[type(value)]
    if kind == 'object':
        return {'type': kind, 'properties': {key: as_it_is(inner) for key, inner in value.items()}, 'required': list(value)}
    if kind == 'array':
        return {'type': kind, 'items': as_it_is(value[0]) if value else {}}
    return {'type': kind}


def unlisted(value, schema, whole, add):
    """Keys that the schema does not list, by where they are; `add` lists them, before the key that follows them."""
    schema = within(schema, whole)
    found = []
    if isinstance(value, list):
        for inner in value:
            found += unlisted(inner, schema.get('items', {}), whole, add)
    elif isinstance(value, dict) and 'additionalProperties' in schema:
        for inner in value.values():
            found += unlisted(inner, schema['additionalProperties'], whole, add)
    elif isinstance(value, dict) and 'properties' in schema:
        for key, inner in value.items():
            if key in schema['properties']:
                found += [f'{key}/{deeper}' for deeper in unlisted(inner, schema['properties'][key], whole, add)]
                continue
            found.append(key)
            if add:
                keys = list(value)
                after = [other for other in keys[:keys.index(key)] if other in schema['properties']]
                items = list(schema['properties'].items())
                place = [name for name, _ in items].index(after[-1]) + 1 if after else 0
                schema['properties'] = dict(items[:place] + [(key, as_it_is(inner))] + items[place:])
    return found


update = 'ACREWRIGHT_UPDATE' in os.environ
seen = {}


def validate(what, document):
    schema = schemas.get(document.get('schema'))
    check(what, schema is not None, document.get('schema'))
    if schema is None:
        return
    strangers = unlisted(document, schema, schema, update)
    check(f'{what}: keys in its schema', update or not strangers, strangers[:5])
    faults = [f'{"/".join(map(str, fault.absolute_path))}: {fault.message[:200]}' for fault in Draft202012Validator(schema).iter_errors(document)]
    check(what, not faults, faults[:5])
    check(f'{what}: the order of keys', in_order(document, schema, schema))
    seen[document['schema']] = document


with tempfile.TemporaryDirectory() as room:
    for folder in ('examples', 'models'):
        shutil.copytree(root / folder, pathlib.Path(room) / folder)
    (pathlib.Path(room) / 'slip.rate').write_text('model "m"\ngiven area = 40 ac\nhours : h = aera / 5 ac/h\nmore : ac = area + 3 h\n')
    (pathlib.Path(room) / 'slip.job').write_text('job "j"\nmodel "deep-rip"\nset depht = 5 ft\nset area = 12\n')
    (pathlib.Path(room) / 'changed.csv').write_text('name,value,your reason\narea,61,walked\ntool,plain shank,\n')
    for command in COMMANDS:
        run = subprocess.run([program, *command, '--json'], cwd=room, capture_output=True, text=True, stdin=subprocess.DEVNULL)
        try:
            document = json.loads(run.stdout)
        except ValueError:
            check(command, False, run.stderr[:300])
            continue
        validate(command, document)
    if page_answers is not None:
        run = subprocess.run([page_answers, FIRST, ROWS, 'examples/16-from-a-map.job'], cwd=room, capture_output=True, text=True)
        check('the answers of a page', run.returncode == 0, run.stderr[:300])
        for number, line in enumerate(run.stdout.splitlines()):
            validate(f'answer {number} of a page', json.loads(line))
    for file in sorted((pathlib.Path(room) / 'examples/quote-book').glob('*.json')):
        document = json.loads(file.read_text())
        name = document.get('schema')
        if name is None:
            continue
        strangers = unlisted(document, schemas[name], schemas[name], update)
        check(f'{file.name}: keys in its schema', update or not strangers, strangers[:5])
        faults = list(Draft202012Validator(schemas[name]).iter_errors(document))
        check(file.name, not faults, [fault.message[:200] for fault in faults[:3]])
        seen[name] = document

for name, schema in schemas.items():
    if page_answers is None and name in OF_PAGES:
        continue
    check(f'{name} is printed by some command', name in seen)
    if name not in seen:
        continue
    # A schema that takes everything holds nothing: a key that must be there is missed, one of another kind is told.
    for key in schema['required']:
        changed = copy.deepcopy(seen[name])
        del changed[key]
        check(f'{name} misses {key}', not Draft202012Validator(schema).is_valid(changed))
        changed = {**seen[name], key: 'text' if isinstance(seen[name][key], list) else [[0]]}
        check(f'{name} tells another {key}', not Draft202012Validator(schema).is_valid(changed))
if update:
    for name, schema in schemas.items():
        files[name].write_text(json.dumps(schema, indent=1) + '\n')
print(f'{passed} passed, {failed} failed')
sys.exit(1 if failed else 0)
