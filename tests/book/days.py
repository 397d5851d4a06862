#!/usr/bin/env python3
"""A book on each of its days. Books are drawn at random: offers, options, change orders, words and words put right, their days not always
   in order. On every day that a record has, the list, its JSON, the entries and the journal must say what a replay of the records says,
   and each other's sums. The replay is written from engine/book/FORMAT.md and shares nothing with the program.
   days.py PROGRAM [BOOKS]"""
import csv, datetime, io, json, os, pathlib, random, subprocess, sys, tempfile
from attack_firm import FILES
from held import end, hold

program = str(pathlib.Path(sys.argv[1]).resolve())
books = int(sys.argv[2]) if len(sys.argv) > 2 else 40
first = datetime.date(2027, 3, 1)


def cents(text):
    whole, _, part = text.lstrip('-').partition('.')
    return (-1 if text.startswith('-') else 1) * (int(whole) * 100 + int((part + '00')[:2]))


def run(*words, room):
    env = {**os.environ, 'SOURCE_DATE_EPOCH': '1804420800'}
    return subprocess.run([program, *map(str, words)], cwd=room, capture_output=True, text=True, env=env)


def records(room):
    return [json.loads(path.read_text()) for path in sorted((room / 'book').glob('0*.json'))]


def draw(dice, room):
    """A book of some twenty tries; what breaks a rule is refused, and that is no matter here."""
    passed, quotes = 0, []
    for _ in range(dice.randint(8, 20)):
        passed += dice.choice([0, 0, 1, 2, 5, 20])
        day = (first + datetime.timedelta(max(0, passed - dice.choice([0, 0, 0, 3])))).isoformat()
        dated = ['--book', 'book', '--date', day]
        also = dice.choice([[], ['--also', 'Fast'], ['--also', 'Fast', '--also', 'Slow']])
        valid = ['--valid', dice.choice([1, 7, 30])]
        kind = dice.random()
        if not quotes or kind < .25:
            old = ['--replaces', dice.choice(quotes)] if quotes and dice.random() < .2 else []
            run('quote', 'ditch.job', *dated, *valid, *also, *old, room=room)
        elif kind < .4:
            order = ['--changes', dice.choice(quotes).split('-C')[0], '--set', f'area={dice.randint(5, 60)} ac']
            run('quote', 'ditch.job', *dated, *valid, *also, *order, room=room)
        else:
            number = dice.choice(quotes)
            state = dice.choice(['accepted'] * 3 + ['turned down', 'withdrawn', 'lapsed', 'finished', 'offered'])
            option = dice.choice([[], [], ['--option', 'Fast'], ['--option', 'as above']]) if state == 'accepted' else []
            said = [record['record'] for record in records(room) if record['kind'] == 'word' and record['quote'] == number]
            right = ['--corrects', said[-1]] if said and dice.random() < .45 else []
            run('mark', number, state, *dated, *option, *right, room=room)
        quotes = [record['quote'] for record in records(room) if record['kind'] == 'quote']


def replay(all_records, day):
    """The state of each quote on that day, whether it is open, and what the work of each accepted one stands at."""
    quotes = {}
    for record in all_records:
        if record['kind'] == 'quote' and record['issued'] <= day:
            quotes[record['quote']] = {'record': record, 'words': [], 'replaced': False}
            if 'replaces' in record:
                quotes[record['replaces']]['replaced'] = True
        elif record['kind'] == 'word' and record['date'] <= day:
            words = quotes[record['quote']]['words']
            if 'corrects' in record:
                words[:] = [word for word in words if word['record'] != record['corrects']]
                if record['state'] == (words[-1]['state'] if words else 'offered'):
                    continue
            words.append(record)
    for quote in quotes.values():
        state, price, accepted = 'offered', None, 0
        for word in quote['words']:
            state = word['state']
            if state == 'accepted':
                others = {option['option']: option['cents'] for option in quote['record'].get('options', [])}
                price, accepted = others.get(word.get('option'), quote['record']['price']['cents']), word['record']
        holds = state in ('accepted', 'finished')
        quote.update(state=state, price=price if holds else None, accepted=accepted)
    for quote in quotes.values():
        base, until = quotes.get(quote['record'].get('changes')), quote['record']['valid_until']
        if quote['state'] == 'offered' and base and base['state'] == 'withdrawn' and base['words'][-1]['date'] <= until:
            quote['state'] = 'withdrawn'
        quote['open'] = quote['state'] == 'offered' and not quote['replaced'] and until >= day
        if quote['state'] == 'offered' and not quote['replaced'] and until < day:
            quote['state'] = 'lapsed'
    stands = {}
    for number, quote in quotes.items():
        if 'changes' not in quote['record'] and quote['price'] is not None:
            orders = [(other['accepted'], other['price']) for other in quotes.values()
                      if other['record'].get('changes') == number and other['price'] is not None]
            stands[number] = max(orders)[1] if orders else quote['price']
    return quotes, stands


def judge(where, room, all_records, day):
    quotes, stands = replay(all_records, day)
    told = {quote['quote']: quote for quote in json.loads(run('book', 'book', '--as-of', day, '--json', room=room).stdout)['quotes']}
    hold(f'{where}: states', {number: quote['state'] for number, quote in told.items()},
         {number: quote['state'] for number, quote in quotes.items()})
    hold(f'{where}: stands at', {number: told[number]['contract_cents'] for number in stands}, stands)
    rows = list(csv.DictReader(io.StringIO(run('book', 'book', '--as-of', day, '--csv', room=room).stdout)))
    hold(f'{where}: ids are told apart', len({row['id'] for row in rows}), len(rows))
    hold(f'{where}: entries of a later day', [row['id'] for row in rows if row['date'] > day], [])
    for number, quote in quotes.items():
        own = [row for row in rows if row['quote'].split('-C')[0] == number]
        if 'changes' not in quote['record']:
            hold(f'{where}: {number} accepted', sum(cents(row['accepted']) for row in own), stands.get(number, 0))
        open_cents = quote['record']['price']['cents'] - quote['record'].get('before_cents', 0) if quote['open'] else 0
        hold(f'{where}: {number} offered', sum(cents(row['offered']) for row in rows if row['quote'] == number), open_cents)
    journal = run('book', 'book', '--as-of', day, '--journal', room=room).stdout.split('\n')
    customers = sum(cents(line.split()[1]) for line in journal if line.startswith('    contracts:customers:'))
    hold(f'{where}: journal', customers, sum(stands.values()))


for seed in range(books):
    with tempfile.TemporaryDirectory() as name:
        room = pathlib.Path(name)
        for file, text in FILES.items():
            (room / file).parent.mkdir(parents=True, exist_ok=True)
            (room / file).write_text(text)
        (room / 'ditch.job').write_text(FILES['bank.job'] + 'option "Slow"\n  set pace = 3.5 ac/h\n')
        draw(random.Random(seed), room)
        hold(f'book {seed}: verify', run('verify', 'book', room=room).returncode, 0)
        all_records = records(room)
        days = {record.get('issued', record.get('date')) for record in all_records}
        for day in sorted(days | {(first + datetime.timedelta(150)).isoformat()}):
            judge(f'book {seed} on {day}', room, all_records, day)
end()
