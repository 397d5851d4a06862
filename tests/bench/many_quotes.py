#!/usr/bin/env python3
"""many_quotes.py FOLDER COPIES [BOOK]: a book, the example or another, unsigned, so many times in a
row, with numbers of its own each time."""
import json, pathlib, re, sys

sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / 'book'))
import forger

root = pathlib.Path(__file__).parent.parent.parent


def renumbered(text, numbers):
    return re.sub(r'2027-\d{3,}\b', lambda found: numbers.get(found.group(0), found.group(0)), text)


def main(folder, copies, source=root / 'examples' / 'quote-book'):
    book = forger.Book(source).copy(folder)
    shipped = [json.dumps(record) for record in book.records if record['kind'] != 'key']
    records, given = [], 0
    for copy in range(copies):
        numbers, places = {}, {}
        for text in shipped:
            record = json.loads(text)
            places[record['record']] = len(records) + 1
            if record['kind'] == 'quote':
                given += 1
                numbers[record['quote']] = f'2027-{given:03}'
                if record.get('replaces'):
                    record['replaces'] = numbers[record['replaces']]
                for page, seal in record['pages'].items():
                    if copy > 0 and page != 'layout':
                        record['pages'][page] = book.put_text(renumbered(book.text(seal), numbers))
            record['quote'] = numbers[record['quote']]
            if 'corrects' in record:
                record['corrects'] = places[record['corrects']]
            record['counter'] = {'2027': given}
            record['written'] = '2027-09-01T15:00:00Z'
            records.append(record)
    book.records = records
    book.write()
    (book.folder / 'index').unlink(missing_ok=True)
    print(len(records))


main(sys.argv[1], int(sys.argv[2]), *sys.argv[3:])
