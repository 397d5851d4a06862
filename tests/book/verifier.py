#!/usr/bin/env python3
"""Checks a quote book: form, seals, chain, texts, signatures, keys, head. Written from engine/book/FORMAT.md alone; Ed25519 is in ed25519.py."""
import decimal, hashlib, json, pathlib, re, sys
from ed25519 import is_signed


def number(x):
    sign, digits, power = decimal.Decimal(repr(float(x))).normalize().as_tuple()
    digits, point, minus = ''.join(map(str, digits)), len(digits) + power, '-' * (sign and x != 0)
    if x == 0 or len(digits) <= point <= 21:
        return minus + digits + '0' * max(0, point - len(digits))
    if -6 < point <= 21:
        return minus + (digits[:point] + '.' + digits[point:] if point > 0 else '0.' + '0' * -point + digits)
    return minus + digits[0] + ('.' + digits[1:] if digits[1:] else '') + f'e{point - 1:+d}'


def canonical(value):
    if isinstance(value, dict):
        names = sorted(value, key=lambda name: name.encode('utf-16-be'))
        return '{' + ','.join(canonical(name) + ':' + canonical(value[name]) for name in names) + '}'
    if isinstance(value, list):
        return '[' + ','.join(map(canonical, value)) + ']'
    return number(value) if isinstance(value, (int, float)) and not isinstance(value, bool) else json.dumps(value, ensure_ascii=False)


def seals_in(record):
    named = [*(record.get(name) for name in ('log', 'text', 'posted', 'page')), record.get('wording', {}).get('text'), *record.get('pages', {}).values()]
    return filter(None, named + [*record.get('texts', {}).values()] + [one['svg'] for one in record.get('pictures', [])])


def check(folder, trusted=None):
    folder, previous, keys, faults, index = pathlib.Path(folder), None, None, [], 0
    for index, file in enumerate(sorted(folder.glob('[0-9]*.json'), key=lambda name: int(name.stem)), 1):
        text = file.read_bytes().decode()
        record = json.loads(text)
        old, signer = record.get('schema') != 'acrewright.record/2', record.get('signer')
        bare = canonical({name: value for name, value in record.items() if name not in ('seal', 'signature')})
        if old:
            bare = re.sub(r'"(seal|signature)":"[0-9a-f]*",?', '', text[:-1]).replace(',}', '}')
        if keys is None and record['kind'] == 'key' and trusted in (None, record['key']):
            keys = {record['key']}
        for seal in [] if old else seals_in(record):
            kept = folder / 'texts' / seal
            if not kept.is_file() or hashlib.sha256(kept.read_bytes()).hexdigest() != seal:
                faults.append(f'{file.name}: text {seal}')
        for what, good in (('form', old or canonical(record) + '\n' == text), ('seal', record['seal'] == hashlib.sha256(bare.encode()).hexdigest()),
                           ('number', record['record'] == index and file.name == f'{index:06}.json'), ('chain', (record.get('previous') or None) == previous),
                           ('signature', not signer or is_signed(record['seal'].encode(), record['signature'], signer)),
                           ('key', signer in keys if keys is not None else old or not signer)):
            faults += [] if good else [f'{file.name}: {what}']
        if keys is not None and record['kind'] == 'key':
            (keys.add if record['action'] == 'admit' else keys.discard)(record['key'])
        previous = record['seal']
    newest, seal = (folder / 'head').read_text().split()
    behind = int(newest) not in (index - 1, index) or int(newest) == index and seal != previous
    return faults + ['head'] * behind + ['the key signs nothing'] * bool(trusted and keys is None)


if __name__ == '__main__':
    sys.exit('\n'.join(check(*sys.argv[1:])) or None)
