#!/usr/bin/env python3
"""What `book` exports, read by SQLite and hledger: sums in cents, what is offered apart from what is accepted, names as they are.
   exports.py PROGRAM"""
import csv, io, json, os, pathlib, shutil, subprocess, sys, tempfile
from attack_firm import FILES
from held import end, hold

if not shutil.which('sqlite3') or not shutil.which('hledger'):
    print('skipped: sqlite3 or hledger is not installed (.dev/install --tests)')
    sys.exit(77)
program = str(pathlib.Path(sys.argv[1]).resolve())
NAMES = ['=SUM(A1:A9)', '+1 Ranch', '-Tail water', '@home farm', "'Tis a farm", "'=quoted", 'Plain "and" comma, Ltd; semi | bar']


def run(*words, room, code=0):
    result = subprocess.run([program, *words], cwd=room, capture_output=True, text=True, env={**os.environ, 'SOURCE_DATE_EPOCH': '1804420800'})
    if result.returncode != code:
        sys.exit(f'{words}: {result.returncode} {result.stdout}{result.stderr}')
    return result.stdout


def cents(text):
    whole, _, part = text.lstrip('-').partition('.')
    return (-1 if text.startswith('-') else 1) * (int(whole) * 100 + int((part + '00')[:2]))


def tool(*words, stdin=''):
    result = subprocess.run(words, input=stdin, capture_output=True, text=True, env={**os.environ, 'LC_ALL': 'C.UTF-8'})
    if result.returncode:
        sys.exit(f'{words}: {result.stderr}')
    return result.stdout


with tempfile.TemporaryDirectory() as name:
    room = pathlib.Path(name)
    for file, text in FILES.items():
        (room / file).parent.mkdir(parents=True, exist_ok=True)
        (room / file).write_text(text)
    prices = {}
    for i, customer in enumerate(NAMES, 1):
        quoted = customer.replace('"', "''")
        (room / 'c.job').write_text(f'job "Job {i}"\nfor "{quoted}"\nmodel "mowing"\nseason "2027"\nset area = {30 + i} ac\noption "Fast"\n  set pace = 5 ac/h\n')
        words = ['--also', 'Fast'] if i == 2 else []
        record = json.loads(run('quote', 'c.job', '--date', f'2027-03-0{i}', '--json', *words, room=room))
        prices[record['quote']] = record['price']['cents']
        fast = record['options'][0]['cents'] if words else 0
        fast = fast or prices.get('fast', 0)
        prices['fast'] = fast
    fast = prices.pop('fast')
    run('mark', '2027-001', 'accepted', '--date', '2027-03-10', room=room)
    run('mark', '2027-002', 'accepted', '--date', '2027-03-11', '--option', 'Fast', room=room)
    run('mark', '2027-003', 'turned down', '--date', '2027-03-11', room=room)
    run('mark', '2027-004', 'accepted', '--date', '2027-03-12', room=room)
    run('mark', '2027-004', 'withdrawn', '--date', '2027-03-13', room=room)
    run('mark', '2027-005', 'turned down', '--date', '2027-03-13', room=room)
    run('mark', '2027-005', 'accepted', '--date', '2027-03-13', '--corrects', '13', room=room)
    order = json.loads(run('quote', 'meadow.job', '--date', '2027-03-14', '--changes', '2027-001', '--json', room=room))
    hold('the number of a change order', order['quote'], '2027-001-C1')
    hold('before it', order['before_cents'], prices['2027-001'])
    run('mark', '2027-001-C1', 'accepted', '--date', '2027-03-15', room=room)
    run('mark', '2027-001', 'finished', '--date', '2027-03-20', room=room)
    run('verify', room=room)

    accepted = order['price']['cents'] + fast + prices['2027-005']
    offered = prices['2027-006'] + prices['2027-007']
    text = run('book', '--csv', '--as-of', '2027-03-31', room=room)
    rows = list(csv.DictReader(io.StringIO(text)))
    hold('accepted', sum(cents(row['accepted']) for row in rows), accepted)
    hold('offered', sum(cents(row['offered']) for row in rows), offered)
    hold('ids are used once', len({row['id'] for row in rows}), len(rows))
    hold('no cell begins as a formula', [cell for row in rows for cell in row.values() if cell[:1] and cell[:1] in '=+@-' and not cell[1:2].isdigit()], [])
    later = list(csv.DictReader(io.StringIO(run('book', '--csv', '--as-of', '2027-12-31', room=room))))
    hold('earlier rows stay as they are', later[:len(rows)], rows)
    hold('all offers lapsed', sum(cents(row['offered']) for row in later), 0)
    hold('what was accepted stays', sum(cents(row['accepted']) for row in later), accepted)
    early = list(csv.DictReader(io.StringIO(run('book', '--csv', '--as-of', '2027-03-09', room=room))))
    hold('nothing was accepted yet', sum(cents(row['accepted']) for row in early), 0)

    (room / 'book.csv').write_bytes(text.encode())
    sql = (f'.mode csv\n.import {room}/book.csv entry\n.mode list\n'
           'select cast(round(sum(accepted) * 100) as integer), cast(round(sum(offered) * 100) as integer) from entry;\n'
           "select distinct case when substr(customer, 1, 1) = '''' then substr(customer, 2) else customer end from entry order by quote;\n")
    got = tool('sqlite3', ':memory:', stdin=sql).split('\n')
    hold('SQLite: accepted and offered', got[0], f'{accepted}|{offered}')
    hold('SQLite: names', sorted(got[1:-1]), sorted([customer.replace('"', "''") for customer in NAMES] + ['Alder Meadows']))

    journal = run('book', '--journal', '--as-of', '2027-03-31', room=room)
    (room / 'book.journal').write_text(journal)
    tool('hledger', '-f', f'{room}/book.journal', 'check')
    total = tool('hledger', '-f', f'{room}/book.journal', 'balance', 'contracts:customers', '--depth', '2', '-O', 'csv', '--no-total')
    amount = list(csv.reader(io.StringIO(total)))[1][1]
    hold('hledger: accepted', cents(amount.split()[0].replace(',', '')), accepted)
    for customer in ('=SUM(A1:A9)', "'Tis a farm"):
        if '2027-001' in journal and customer == '=SUM(A1:A9)':
            hold(f'the journal names {customer}', f'; for {customer}\n' in journal, True)

    # Work that is called off takes its change orders with it, and an option of a change order counts.
    def issue(*words):
        return json.loads(run('quote', 'bank.job', *words, '--book', 'second', '--json', room=room))

    def mark(number, state, date, *words):
        run('mark', number, state, '--date', date, '--book', 'second', *words, room=room)

    def stands(day):
        rows = list(csv.DictReader(io.StringIO(run('book', 'second', '--csv', '--as-of', day, room=room))))
        quotes = json.loads(run('book', 'second', '--json', '--as-of', day, room=room))['quotes']
        contracts = sum(quote['contract_cents'] or 0 for quote in quotes if not quote['changes'])
        journal = run('book', 'second', '--journal', '--as-of', day, room=room)
        lines = [line.split() for line in journal.split('\n') if line.startswith('    contracts:customers:')]
        return [sum(cents(row['accepted']) for row in rows), contracts, sum(cents(words[1]) for words in lines)]

    first = issue('--date', '2027-03-01', '--also', 'Fast')
    own, fast = first['price']['cents'], first['options'][0]['cents']
    mark('2027-001', 'accepted', '2027-03-02', '--option', 'as above')
    hold('the own offer of several', stands('2027-03-02'), [own] * 3)

    def options(number):
        rows = csv.DictReader(io.StringIO(run('book', 'second', '--csv', '--as-of', '2027-12-31', room=room)))
        return [row['option'] for row in rows if row['quote'] == number and row['accepted'] != '0.00']

    hold('accepted items have the option that was accepted', set(options('2027-001')), {''})
    order = issue('--date', '2027-03-03', '--changes', '2027-001', '--set', 'area=30 ac', '--also', 'Fast')
    mark('2027-001-C1', 'accepted', '2027-03-04', '--option', 'Fast')
    small_fast = order['options'][0]['cents']
    hold('an option of a change order', stands('2027-03-04'), [small_fast] * 3)
    hold('and its items have its name', set(options('2027-001-C1')), {'Fast'})
    hold('the day before', stands('2027-03-03'), [own] * 3)
    second = issue('--date', '2027-03-05', '--changes', '2027-001', '--set', 'area=20 ac')
    hold('the next change starts from it', second['before_cents'], small_fast)
    mark('2027-001-C2', 'accepted', '2027-03-06')
    hold('the second change', stands('2027-03-06'), [second['price']['cents']] * 3)
    mark('2027-001-C1', 'withdrawn', '2027-03-07')
    hold('the second change holds', stands('2027-03-07'), [second['price']['cents']] * 3)
    mark('2027-001', 'withdrawn', '2027-03-08')
    hold('called off', stands('2027-03-08'), [0] * 3)
    mark('2027-001', 'accepted', '2027-03-09', '--corrects', '8')
    hold('and taken back', stands('2027-03-09'), [second['price']['cents']] * 3)
    run('verify', 'second', room=room)

    # An offer that lapsed and was renewed: what was exported between the two stays as it was.
    issue('--date', '2027-03-10', '--valid', '5')
    issue('--date', '2027-04-20', '--replaces', '2027-002')

    def ids(day):
        rows = csv.DictReader(io.StringIO(run('book', 'second', '--csv', '--as-of', day, room=room)))
        return {row['id']: row for row in rows if row['quote'] == '2027-002'}

    early, later = ids('2027-04-01'), ids('2027-04-21')
    hold('the renewed offer, as it was told before', {key: later.get(key) for key in early}, early)
    hold('nothing of it is open', sum(cents(row['offered']) for row in later.values()), 0)
end()
