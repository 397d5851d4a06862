# A line of C++ with one mistake in it, behind a switch (mutant.h): for .dev/mutate.
import re

OPERATORS = [(' < ', ' <= '), (' <= ', ' < '), (' > ', ' >= '), (' >= ', ' > '), (' == ', ' != '), (' != ', ' == '),
             (' + ', ' - '), (' - ', ' + '), (' * ', ' / '), (' / ', ' * '), (' && ', ' || '), (' || ', ' && ')]


def masked(text):
    """The text with what stands between quotes blanked, at the same length."""
    return re.sub(r'"(?:\\.|[^"\\])*"|\'(?:\\.|[^\'\\])\'', lambda m: m[0][0] + '_' * (len(m[0]) - 2) + m[0][-1], text)


def balanced(text):
    depth = 0
    for c in masked(text):
        depth += (c in '([{') - (c in ')]}')
        if depth < 0:
            return False
    return depth == 0


def changed(expression, draw):
    """The expression with one mistake in it; None: there is none to make."""
    bare = masked(expression)
    ways = []
    for old, new in OPERATORS:
        ways += [(m.start(), m.end(), new) for m in re.finditer(re.escape(old), bare)]
    ways += [(m.start(), m.end(), str(int(m[0]) + 1)) for m in re.finditer(r'(?<![\w.\'])\d+(?![\w.\'])', bare)]
    ways += [(m.start(), m.end(), str(2 * float(m[0])))
             for m in re.finditer(r'(?<![\w.\'])\d+\.\d+(?![\w\'])', bare)]
    ways += [(m.start(), m.end(), '1e-2') for m in re.finditer(r'(?<![\w.])\de-\d+', bare)]
    ways += [(m.start(), m.end(), 'false' if m[0] == 'true' else 'true') for m in re.finditer(r'\b(true|false)\b', bare)]
    ways += [(m.start(1), m.end(2), f'{m[2]}, {m[1]}') for m in re.finditer(r'\((\w+), (\w+)\)', bare) if m[1] != m[2]]
    if not ways:
        return None
    start, end, new = draw.choice(ways)
    return expression[:start] + new + expression[end:]


PURE = {'size', 'empty', 'length', 'find', 'npos', 'std::abs', 'std::fabs', 'std::max', 'std::min', 'std::floor',
        'std::ceil', 'std::isnan', 'std::isfinite'}


def outside(expression):
    """The expression without what stands in square brackets."""
    while (shorter := re.sub(r'\[[^\[\]]*\]', '', expression)) != expression:
        expression = shorter
    return expression


def harmless(expression, wrong):
    """Whether both can be asked one after the other.

    Then nothing is called that may change something, and nothing read outside of what is there."""
    bare = masked(expression) + masked(wrong)
    guarded = re.search(r'&&|\|\||\?', bare) and re.search(r'\[|->|(?<![\w)\]] )\*', bare)
    by_number = re.search(r'\[[^\]]*\d', bare)
    elsewhere = outside(masked(expression)) == outside(masked(wrong)) # another place is read
    changes = '++' in bare or '--' in bare or re.search(r'(?<![=<>!])=(?!=)', bare)
    calls = set(re.findall(r'([\w:]+)\(', bare))
    return not (guarded or by_number or elsewhere or changes or ' / ' in bare) and calls <= PURE


def mutated(lines, i, number, draw):
    """Line i with a switch and a mistake behind it, or None."""
    line = lines[i]
    switch = f'acre_mutant({number})'
    for pattern in (r'^(\s*(?:\} else )?if \()(.*)(\)(?: \{)?)$', r'^(\s+return )(.*)(;)$',
                    r'^(\s+(?:const )?(?:double|bool|long|int|std::size_t|std::int64_t|auto) \w+ = )(.*)(;)$'):
        if m := re.match(pattern, line):
            expression = m[2]
            if ';' in masked(expression) or not expression or not balanced(expression) or '[' == expression[0] or \
                    '{' in masked(expression) or re.match(r'(const|auto|constexpr)\b', expression):
                return None
            wrong = changed(expression, draw)
            if wrong and harmless(expression, wrong):
                return f'{m[1]}acre_value({number}, ({wrong}), ({expression})){m[3]}'
            return wrong and f'{m[1]}{switch} ? ({wrong}) : ({expression}){m[3]}'
    before = lines[i - 1].strip() if i else ''
    statement = re.match(r'^(\s{4,})((?:[\w.:>\[\]-]+(?:\(.*\))?(?: [-+*/|&]?= .*)?);)$', line)
    if statement and before.endswith((';', '{', '}')) and balanced(line) and '(' in line + '=' and \
            not re.match(r'\s*(return|break|continue|using|case|default|throw|goto)\b|.*\.reserve\(', line):
        return f'{statement[1]}if (!{switch}) {{ {statement[2]} }}'
    return None
