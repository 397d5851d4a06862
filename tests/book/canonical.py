#!/usr/bin/env python3
"""Ten thousand random records in canonical form, by the program and by rules written here from RFC 8785: byte for byte the same.
   canonical.py CANONICAL_LINES"""
import json, random, re, struct, subprocess, sys

random.seed(8785)
LETTERS = ['a', 'b', 'Z', '0', '"', '\\', '/', '\b', '\f', '\n', '\r', '\t', '\x00', '\x1f', '\x7f', '\x80', 'é', '€', '\u2028', '\ud7ff', '\ue000',
           '\ufb33', '\uffff', '\U00010000', '😀', '\U0010ffff']


def es_number(x):
    """Number::toString of ECMAScript (ECMA-262, 6.1.6.1.20), from the digits that Python finds shortest."""
    if x == 0:
        return '0'
    if x < 0:
        return '-' + es_number(-x)
    digits, exponent = re.fullmatch(r'(\d(?:\.\d+)?)e([+-]\d+)', next(
        text for text in (f'{x:.{size}e}' for size in range(17)) if float(text) == x)).groups()
    s = digits.replace('.', '')
    k, n = len(s), int(exponent) + 1
    if k <= n <= 21:
        return s + '0' * (n - k)
    if 0 < n <= 21:
        return s[:n] + '.' + s[n:]
    if -6 < n <= 0:
        return '0.' + '0' * -n + s
    e = ('+' if n - 1 >= 0 else '-') + str(abs(n - 1))
    return (s if k == 1 else s[0] + '.' + s[1:]) + 'e' + e


ESCAPES = {'"': '\\"', '\\': '\\\\', '\b': '\\b', '\f': '\\f', '\n': '\\n', '\r': '\\r', '\t': '\\t'}


def es_text(text):
    return '"' + ''.join(ESCAPES.get(c) or (f'\\u{ord(c):04x}' if c < ' ' else c) for c in text) + '"'


def units(name):
    raw = name.encode('utf-16-be')
    return [raw[i] << 8 | raw[i + 1] for i in range(0, len(raw), 2)]


def by_rules(value):
    if value is None or isinstance(value, bool):
        return {None: 'null', True: 'true', False: 'false'}[value]
    if isinstance(value, str):
        return es_text(value)
    if isinstance(value, (int, float)):
        return es_number(float(value))
    if isinstance(value, list):
        return '[' + ','.join(by_rules(one) for one in value) + ']'
    return '{' + ','.join(es_text(name) + ':' + by_rules(value[name]) for name in sorted(value, key=units)) + '}'


def number():
    kind = random.randrange(6)
    if kind == 0:
        return random.randint(-2**53, 2**53)
    if kind == 1:
        return random.randint(-10**6, 10**6) / 100
    if kind == 2:
        return random.choice([0.0, -0.0, 1e21, 1e20, 1e-6, 1e-7, 999999999999999900000.0, 5e-324, 1.7976931348623157e308, 1e23, 9007199254740993.0])
    if kind == 3:
        return random.uniform(-1, 1) * 10.0**random.randint(-30, 30)
    while True:
        x = struct.unpack('<d', random.randbytes(8))[0]
        if x == x and abs(x) != float('inf'):
            return x


def text():
    return ''.join(random.choice(LETTERS) for _ in range(random.randrange(6)))


def value(depth):
    kind = random.randrange(8 if depth else 5)
    if kind < 2:
        return number()
    if kind < 4:
        return text()
    if kind == 4:
        return random.choice([None, True, False])
    if kind == 5:
        return [value(depth - 1) for _ in range(random.randrange(4))]
    return {text(): value(depth - 1) for _ in range(random.randrange(6))}


records = [{'schema': 'acrewright.record/2', 'kind': 'quote', **{text(): value(4) for _ in range(8)}} for _ in range(10000)]
lines = ''.join(json.dumps(record, ensure_ascii=random.random() < 0.5).replace('\x7f', '\\u007f') + '\n' for record in records)
result = subprocess.run([sys.argv[1]], input=lines.encode(), capture_output=True, check=True).stdout.decode()
ours, theirs = [by_rules(record) for record in records], result.split('\n')[:-1]
different = [pair for pair in zip(ours, theirs) if pair[0] != pair[1]]
for ours_one, theirs_one in different[:3]:
    print('by the rules', ours_one, '\nthe program ', theirs_one)
print(f'{len(records)} records, {len(different)} different')
sys.exit(bool(different) or len(theirs) != len(records))
