#!/usr/bin/env python3
"""Bills of accepted work, worked out a second time from nothing but the record of the quote, the rows of the log and the posted prices, in
   fractions: bills.py PROGRAM"""
import csv, datetime, fractions, io, json, math, os, pathlib, shutil, subprocess, sys, tempfile
from held import end, hold

program = str(pathlib.Path(sys.argv[1]).resolve())
root = pathlib.Path(__file__).resolve().parents[2]
F = lambda value: fractions.Fraction(str(value))


def run(*words, code=0, day='2027-12-20', text=None, with_words=False):
    seconds = str(int(datetime.datetime.fromisoformat(day + 'T15:00+00:00').timestamp()))
    result = subprocess.run([program, *map(str, words)], cwd=root, input=text, capture_output=True, text=True,
                            env={**os.environ, 'SOURCE_DATE_EPOCH': seconds})
    if result.returncode != code:
        hold(f'{words}: {result.stdout}{result.stderr}: ends with', result.returncode, code)
    return result.stdout + (result.stderr if code or with_words else '')


def half_up(value, parts=1):
    return math.floor(F(value) * parts + fractions.Fraction(1, 2))


def day(date):
    return datetime.date.fromisoformat(date).toordinal()


def line(record, name):
    found = [one for one in record['lines'] if one['name'] == name or one['name'].endswith('.' + name)]
    own = [one for one in found if one['name'] == name]
    return (own or found or [{}])[0]


def value(record, name):
    return line(record, name).get('value')


# What each cause of these logs means, and the lines that price a day.
CAUSES = {'grower': 'not_ready', 'unmarked line': 'lines', 'rain': 'weather', 'parts': 'repairs'}


def by_hand(record, log, measured_by, minimum_of, posted):
    """{name: cents}, from the sealed record alone. measured_by: which column measures which item."""
    out = {}
    for item in record['items']:
        column = measured_by.get(item['name'])
        cents = item['cents']
        if column:
            done = sum(F(row[column]) for row in log if row.get(column) not in (None, ''))
            quoted, rate = F(item['quantity']), F(item['rate'])
            tolerance = F(value(record, 'acre_tolerance') or 0) / 100 if item['per'] == 'ac' else 0
            if item['per'] == 'ac' and abs(done - quoted) <= tolerance * quoted and tolerance:
                billed = quoted
            else:
                billed = fractions.Fraction(half_up(done, 1 if item['per'] == 'tree' and done >= 100 else 100), 1 if item['per'] == 'tree' and done >= 100 else 100)
                cents = half_up(rate * billed * 100) if billed != quoted else cents
            least = value(record, minimum_of.get(item['name'], '')) if item['name'] in minimum_of else None
            if least is not None and cents < half_up(F(least) * 100):
                out[item['name'] + '.minimum'] = half_up(F(least) * 100) - cents
            if item['per'] == 'ac' and posted:
                fuel(record, log, column, done, billed, posted, out)
        if cents or column:
            out[item['name']] = cents
    standby(record, log, out)
    hourly = sum(F(row.get('hourly_hours') or 0) for row in log)
    if hourly:
        rate = half_up(F(value(record, 'crawler_by_the_hour')) * 100)
        out['hourly'] = half_up(rate * fractions.Fraction(half_up(hourly * 100), 100))
    return out


def fuel(record, log, column, done, billed, posted, out):
    base, step = half_up(F(value(record, 'fuel_base')) * 100), half_up(F(value(record, 'fuel_step')) * 100)
    if any(name.startswith('fuel.') for name in out):
        return  # one fuel charge a job
    so_far, before = F(0), F(0)
    for week, price in sorted(posted.items()):
        acres = sum(F(row[column]) for row in log if row.get(column) and day(week) <= day(row['date']) < day(week) + 7)
        if not acres:
            continue
        now = max(half_up(F(price) * 100), half_up(F(value(record, 'fuel_floor') or 0) * 100))
        steps = abs(now - base) // step * (1 if now >= base else -1)
        if line(record, 'fuel_way')['choice'] == 'up_only':
            steps = max(steps, 0)
        amount = F(value(record, 'gallons_per_acre')) * steps * step  # cents an acre
        per_acre = half_up(amount) if amount >= 0 else -half_up(-amount)
        so_far += acres
        of_week = fractions.Fraction(half_up(billed * so_far / done * 100), 100) - before
        before += of_week
        cents = of_week * per_acre
        out['fuel.' + week] = half_up(cents) if cents >= 0 else -half_up(-cents)


def standby(record, log, out):
    public = line(record, 'standby_by').get('choice') == 'public_rate'
    hours_a_day = value(record, 'standby_hours') if public else value(record, 'meter_per_day' if line(record, 'standby_by') else 'day_hours')
    machines = value(record, 'machines') or 1
    sums, stood = {}, {}
    for row in log:
        down = F(row.get('down_hours') or 0)
        if not down:
            continue
        clause = CAUSES[row['down_cause']]
        pays = line(record, 'standby_' + clause).get('choice') == 'grower'
        if not pays:
            out.setdefault('standby_' + clause, 0)
            continue
        key = (row['date'], row.get('machine'))
        worked = sum(F(other.get('meter_stop') or 0) - F(other.get('meter_start') or 0) for other in log if (other['date'], other.get('machine')) == key)
        hours = min(down, max(F(hours_a_day) - stood.get(key, 0) - (worked if public else 0), 0))
        stood[key] = stood.get(key, 0) + hours
        own = value(record, f'{row.get("machine", "").lower()}.standby_each') if row.get('machine') else None
        own = own if any(one['name'] == f'{row.get("machine", "").lower()}.standby_each' for one in record['lines']) else None
        rate = F(own) if own is not None else F(value(record, 'standing_by')) / F(machines)
        if row.get('crew_waited') == 'yes':
            rate += (F(value(record, 'standing_by_with_crew')) - F(value(record, 'standing_by'))) / F(machines)
        rate = half_up(rate * 100)
        sums[clause, row.get('crew_waited') == 'yes', own and row['machine']] = sums.get((clause, row.get('crew_waited') == 'yes', own and row['machine']), 0) + rate * hours / F(hours_a_day)
    for (clause, crew, machine), cents in sums.items():
        out['standby_' + clause] = out.get('standby_' + clause, 0) + half_up(cents)


def write_csv(path, rows):
    heads = list(dict.fromkeys(name for row in rows for name in row))
    path.write_text('\n'.join([','.join(heads)] + [','.join(str(row.get(head, '')) for head in heads) for row in rows]) + '\n')
    return path


def records(book):
    return [json.loads(file.read_text()) for file in sorted(book.glob('0*.json'))]


def days(start, amounts, column='acres', hours=20, machine='crawler', meter=1000):
    rows, at = [], meter
    for i, amount in enumerate(amounts):
        date = (datetime.date.fromisoformat(start) + datetime.timedelta(i)).isoformat()
        rows.append({'date': date, 'machine': machine, 'meter_start': at, 'meter_stop': at + hours, column: amount})
        at += hours
    return rows


WEEKS = {'2027-06-21': '4.61', '2027-06-28': '4.98', '2027-07-05': '4.20'}
RIP = dict(measured_by={'ripping': 'acres'}, minimum_of={'ripping': 'minimum_job'})
CALM = {'2027-06-21': '4.10', '2027-06-28': '4.47', '2027-07-05': '4.56'}  # never a whole step above the base
CASES = [
    ('within the tolerance', '01-first-price', [], days('2027-06-21', [20] * 5 + [19.5]), CALM, RIP),
    ('just at the tolerance', '01-first-price', [], days('2027-06-21', [20] * 5 + [20.36]), CALM, RIP),
    ('just past the tolerance', '01-first-price', [], days('2027-06-21', [20] * 5 + [20.37]), CALM, RIP),
    ('less than quoted', '01-first-price', [], days('2027-06-21', [20] * 5 + [10.004]), CALM, RIP),
    ('below the minimum', '01-first-price', [], days('2027-06-21', [5.25]), CALM, RIP),
    ('fuel up by steps, over three weeks', '01-first-price', [], days('2027-06-25', [11, 12, 13, 14.5, 12, 11, 11.7, 13, 12, 10.3]), WEEKS, RIP),
    ('fuel both ways, with a floor', '01-first-price', ['--set', 'fuel_way=both_ways', '--set', 'fuel_floor=$4.25/gal'],
     days('2027-07-03', [30, 30, 30, 40]), WEEKS, RIP),
    ('standby by each cause', '01-first-price', [],
     [{**row, **down} for row, down in zip(days('2027-06-21', [20, 20, 20, 20, 20, 18], hours=12),
                                           [dict(down_hours=2, down_cause='grower'), dict(down_hours=3.5, down_cause='parts'), dict(down_hours=4, down_cause='rain'),
                                            dict(down_hours=1.25, down_cause='unmarked line'), dict(down_hours=5, down_cause='grower', crew_waited='yes'), {}])], CALM, RIP),
    ('a day of standby at most', '01-first-price', [], days('2027-06-21', [60, 58]) + [dict(date='2027-06-25', machine='crawler', down_hours=24, down_cause='grower')], CALM, RIP),
    ('standby at the public rate', '01-first-price', ['--set', 'standby_by=public_rate'],
     [{**row, 'down_hours': 6, 'down_cause': 'grower'} for row in days('2027-06-21', [59, 59], hours=5)], CALM, RIP),
    ('hard ground, by the hour', '01-first-price', [],
     days('2027-06-21', [59, 59]) + [dict(date='2027-06-23', machine='crawler', meter_start=2000, meter_stop=2007.5, acres=0, hourly_hours=7.5, refused_at='north end of row 12')], CALM, RIP),
    ('the smallest job', '09-smallest-job', [], days('2027-06-30', [7.9]), CALM, RIP),
    ('tree rows', '03-rows-or-field', ['--option', 'Tree rows, two pulls'], days('2027-06-21', [19.5, 19.15]), WEEKS, RIP),
    ('two crawlers, standby of one', '05-two-crawlers', [],
     days('2027-06-21', [60, 60, 60], machine='Hazel') + [{**row, 'acres': 13, 'down_hours': 2.5, 'down_cause': 'grower'} for row in days('2027-06-21', [0, 0], machine='Walt', meter=9000)], CALM, RIP),
    ('by the hour', '20-by-the-hour', [], [{key: one for key, one in row.items() if key != 'acres'} | {'hired': 21.3} for row in days('2027-09-20', [0, 0], hours=21.3)], None,
     dict(measured_by={'crawler_by_the_hour': 'hired'}, minimum_of={'crawler_by_the_hour': 'minimum_job'})),
    ('planting', '13-plant', [], days('2027-12-13', [5200, 5300, 3811.4], column='planted_trees', hours=9, machine='tractor')
     + [dict(date='2027-12-16', machine='tractor', planted_trees=0, down_hours=4, down_cause='grower')], None,
     dict(measured_by={'planting': 'planted_trees'}, minimum_of={'planting': 'minimum_small'})),
    ('an old block to rows', '14-old-block-to-rows', [], [dict(date='2027-06-22', machine='crawler', meter_start=100, meter_stop=118, area=20), dict(date='2027-06-29', machine='crawler', meter_start=118, meter_stop=136, area=19.1)],
     WEEKS, dict(measured_by={'old_trees_out': 'area', 'ripping': 'area', 'disc_and_float': 'area'},
                 minimum_of={'old_trees_out': 'minimum_small', 'ripping': 'minimum_job', 'disc_and_float': 'minimum_small'})),
]


def posted_file(room, posted):
    return [] if posted is None else ['--posted', write_csv(room / 'posted.csv', [dict(week=week, product='off-road diesel', price=price, source='the board') for week, price in posted.items()])]


def lines_of(answer):
    sums = {}
    for one in answer['lines']:
        sums[one['name']] = sums.get(one['name'], 0) + one['cents']
    return sums


def one_case(room, what, job, words, log, posted, rules):
    book = room / 'book'
    run('quote', f'examples/{job}.job', '--book', book, '--date', '2027-05-10', *words)
    run('mark', '2027-001', 'accepted', '--book', book, '--date', '2027-05-14')
    record = records(book)[0]
    # The program reads the hours hired off the meter: the column is for the second calculation alone.
    file = write_csv(room / 'log.csv', [{key: one for key, one in row.items() if key != 'hired'} for row in log])
    answer = json.loads(run('bill', '2027-001', file, '--book', book, '--json', '--date', '2027-12-20', *posted_file(room, posted)) or '{"lines": []}')
    wanted = by_hand(record, log, rules['measured_by'], rules['minimum_of'], posted)
    hold(what, lines_of(answer), wanted)
    hold(what + ', in all', answer.get('due_cents'), sum(wanted.values()))
    hold(what + ', its lines say why', all(one['clause'] and (one['terms'] or one['kind'] in ('deposit', 'before')) for one in answer['lines']), True)
    known = {one['name'] for one in record['lines']}
    hold(what + ', by lines of the record', [term for one in answer['lines'] for term in one['terms'] if term not in known], [])
    sealed = records(book)[-1]
    hold(what + ', as sealed', (sealed['kind'], sealed['bill'], sealed['cents'], sum(one['cents'] for one in sealed['items'])),
         ('bill', '2027-B001', sum(wanted.values()), sum(wanted.values())))
    run('verify', book)


def life_of_a_bill(room):
    """Change orders, deposits, options, numbers, refusals."""
    book, log = room / 'book', write_csv(room / 'log.csv', days('2027-06-21', [20] * 5 + [19.5]))
    posted = posted_file(room, CALM)
    run('quote', 'examples/01-first-price.job', '--book', book, '--date', '2027-05-10')
    refused = run('bill', '2027-001', log, '--book', book, *posted, code=1)
    hold('an offer is not billed', 'R010' in refused and 'offered' in refused, True)
    run('mark', '2027-001', 'accepted', '--book', book, '--date', '2027-05-14')
    before = sorted(os.listdir(book))
    draft = json.loads(run('bill', '2027-001', log, '--book', book, *posted, '--draft', '--json', '--date', '2027-07-06'))
    hold('a draft writes nothing', sorted(os.listdir(book)), before)
    hold('a draft has no number', draft['bill'], None)
    hold('due in 30 days, as quoted', draft['due'], '2027-08-05')
    stopped = run('bill', '2027-001', log, '--book', book, code=1)
    hold('no posted prices: it stops and names the week', 'R010' in stopped and 'June 21, 2027' in stopped, True)
    late = write_csv(room / 'late.csv', [dict(week='2027-07-05', product='off-road diesel', price='4.5', source='board')])
    hold('no price of that week', 'June 21, 2027' in run('bill', '2027-001', log, '--book', book, '--posted', late, code=1), True)
    run('quote', 'examples/01-first-price.job', '--book', book, '--date', '2027-05-20', '--changes', '2027-001', '--set', 'depth=5 ft')
    unaccepted = json.loads(run('bill', '2027-001', log, '--book', book, *posted, '--draft', '--json'))
    hold('a change order that is not accepted changes nothing', unaccepted['due_cents'], draft['due_cents'])
    run('mark', '2027-001-C1', 'accepted', '--book', book, '--date', '2027-05-22')
    order = [one for one in records(book) if one.get('quote') == '2027-001-C1' and one['kind'] == 'quote'][0]
    changed = json.loads(run('bill', '2027-001', log, '--book', book, *posted, '--deposit', '$5,000', '--deposit', '1250.50', '--json', '--date', '2027-07-06'))
    hold('the terms are those of the change order', changed['terms_of'], '2027-001-C1')
    work = sum(by_hand(order, days('2027-06-21', [20] * 5 + [19.5]), RIP['measured_by'], RIP['minimum_of'], CALM).values())
    hold('work of a change order', changed['work_cents'], work)
    hold('less deposits', changed['due_cents'], work - 500000 - 125050)
    hold('what was agreed', [one['cents'] for one in changed['contract']], [draft['work_cents'], order['price']['cents']])
    hold('the page again, as it was made', run('bill', '2027-B001', '--book', book), run('bill', '2027-B001', '--book', book, day='2030-01-01'))
    hold('and it is the page of that bill', 'Bill 2027-B001, July 6, 2027' in run('bill', '2027-B001', '--book', book), True)
    hold('no bill of that number', 'R002' in run('bill', '2027-B009', '--book', book, code=2), True)
    hold('not dated before its log ends', 'R010' in run('bill', '2027-001', log, '--book', book, *posted, '--date', '2027-06-24', code=1), True)
    again = run('bill', '2027-001', log, '--book', book, *posted, '--date', '2027-07-07', code=1)
    hold('nothing is billed twice', 'nothing is left to bill: bill 2027-B001' in again, True)
    more = write_csv(room / 'more.csv', days('2027-06-21', [20] * 5 + [29.5]))
    rest = json.loads(run('bill', '2027-001', more, '--book', book, *posted, '--json', '--date', '2027-07-08'))
    hold('the next number', rest['bill'], '2027-B002')
    hold('what was billed before is taken off, its deposits not again', rest['due_cents'], rest['work_cents'] - work)
    with_log = run('mark', '2027-001', 'finished', '--book', book, '--date', '2027-07-10', '--log', more)
    hold('another log than the sealed one', 'R010' in run('bill', '2027-001', log, '--book', book, *posted, code=1), True)
    hold('the sealed log by itself', 'nothing is left' in run('bill', '2027-001', '--book', book, *posted, '--date', '2027-07-12', code=1), True)
    run('verify', book)


def option_taken(room):
    book, log = room / 'book', write_csv(room / 'log.csv', days('2027-06-21', [15.5, 16.15]))
    run('quote', 'examples/03-rows-or-field.job', '--book', book, '--date', '2027-05-10', '--also', 'Tree rows, two pulls')
    run('mark', '2027-001', 'accepted', '--book', book, '--date', '2027-05-14', '--option', 'Tree rows, two pulls')
    alone = room / 'alone'
    run('quote', 'examples/03-rows-or-field.job', '--book', alone, '--date', '2027-05-10', '--option', 'Tree rows, two pulls')
    wanted = by_hand(records(alone)[0], days('2027-06-21', [15.5, 16.15]), RIP['measured_by'], RIP['minimum_of'], WEEKS)
    answer = json.loads(run('bill', '2027-001', log, '--book', book, *posted_file(room, WEEKS), '--json'))
    hold('the option that was taken, with its own gallons an acre', lines_of(answer), wanted)


def two_at_once(room):
    book = room / 'book'
    for number in range(1, 5):
        run('quote', 'examples/01-first-price.job', '--book', book, '--date', '2027-05-10')
        run('mark', f'2027-00{number}', 'accepted', '--book', book, '--date', '2027-05-14')
    log, posted = write_csv(room / 'log.csv', days('2027-06-21', [20] * 5 + [19.5])), posted_file(room, CALM)
    jobs = [subprocess.Popen([program, 'bill', f'2027-00{number}', str(log), '--book', str(book), *map(str, posted), '--date', '2027-07-06'], cwd=root,
                             stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, env={**os.environ, 'SOURCE_DATE_EPOCH': '1829314800'}) for number in range(1, 5)]
    hold('four at once end well', [job.wait() for job in jobs], [0] * 4)
    for job in jobs:
        job.stderr.close()
    hold('and no number is given twice', sorted(one['bill'] for one in records(book) if one['kind'] == 'bill'), [f'2027-B00{number}' for number in range(1, 5)])
    run('verify', book)


def in_cents(text):
    return int(round(F(text.replace('$', '').replace(',', '')) * 100))


def the_book_lists_them(room):
    """Page, CSV, JSON, journal: each bill, and what they come to, on each day; against the records."""
    book, posted = room / 'book', posted_file(room, CALM)
    for customer, number in (('Alder, Sons', 1), ('=Bow', 2), ('Alder, Sons', 3)):
        text = (root / 'examples/01-first-price.job').read_text().replace('Quillon Orchards', customer)
        run('quote', '-', '--named', 'examples/one.job', '--book', book, '--date', '2027-05-10', text=text)
        run('mark', f'2027-00{number}', 'accepted', '--book', book, '--date', '2027-05-14')
    half, all_of_it = write_csv(room / 'half.csv', days('2027-06-21', [20] * 3)), write_csv(room / 'all.csv', days('2027-06-21', [20] * 5 + [25]))
    run('bill', '2027-001', half, '--book', book, *posted, '--date', '2027-06-24', '--deposit', '$10,000')
    run('bill', '2027-002', all_of_it, '--book', book, *posted, '--date', '2027-06-28')
    run('bill', '2027-001', all_of_it, '--book', book, *posted, '--date', '2027-06-30', '--deposit', '-$9,000')
    run('quote', 'examples/01-first-price.job', '--book', book, '--date', '2027-07-01', '--changes', '2027-002', '--set', 'area=100 ac')
    run('mark', '2027-002-C1', 'accepted', '--book', book, '--date', '2027-07-02')
    run('bill', '2027-002', write_csv(room / 'less.csv', days('2027-06-21', [20] * 5)), '--book', book, *posted, '--date', '2027-07-03')
    said = run('bill', '2027-003', all_of_it, '--book', book, *posted, '--date', '2027-07-03', '--draft', with_words=True)
    hold('a log that another quote was billed by', 'are also in the log of quote 2027-002' in ' '.join(said.split()), True)
    made = [record for record in records(book) if record['kind'] == 'bill']
    hold('four bills', [one['bill'] for one in made], [f'2027-B00{number}' for number in range(1, 5)])
    hold('more is put back than work comes', [one['cents'] < 0 for one in made], [False, False, False, True])
    for date in ('2027-06-23', '2027-06-24', '2027-06-28', '2027-06-30', '2027-07-03'):
        then = [one for one in made if one['date'] <= date]
        told = json.loads(run('book', book, '--json', '--as-of', date))
        hold(f'{date}: JSON', [(one['bill'], one['cents'], one['work_cents'] - one['before_cents'] - one['deposit_cents']) for one in told['bills']],
             [(one['bill'], one['cents'], one['cents']) for one in then])
        rows = list(csv.DictReader(io.StringIO(run('book', book, '--bills', '--csv', '--as-of', date))))
        hold(f'{date}: CSV', [sum(in_cents(row['amount']) for row in rows if row['bill'] == one['bill']) for one in then], [one['cents'] for one in then])
        hold(f'{date}: rows', len(rows), sum(len(one['items']) for one in then))
        page = run('book', book, '--bills', '--as-of', date)
        totals = [line.split()[-1] for line in page.split('\n') if line.strip().startswith('all')]
        hold(f'{date}: page', [in_cents(total) for total in totals], [sum(one['cents'] for one in then)] * (2 if then else 1))
        stands = sum(quote['contract_cents'] or 0 for quote in told['quotes'] if not quote['changes'])
        last = [line.split() for line in page.split('\n') if line.strip().startswith('all ')][-1]
        work = {one['quote']: sum(item['cents'] for item in one['items'] if item['kind'] not in ('deposit', 'before')) for one in then}
        deposits = sum(item['cents'] for one in then for item in one['items'] if item['kind'] == 'deposit')
        hold(f'{date}: what it stands at, work, deposits', [in_cents(text) for text in last[-4:-1]], [stands, sum(work.values()), deposits])
        journal = run('book', book, '--journal', '--as-of', date)
        sums = {}
        for row in journal.split('\n'):
            if row.startswith('    ') and not row.startswith('    ;'):
                account, amount, money = row.split()
                sums[account.split(':')[0]] = sums.get(account.split(':')[0], 0) + in_cents(amount)
        hold(f'{date}: journal', [sums.get(name, 0) for name in ('receivables', 'income', 'deposits', 'contracts')],
             [sum(one['cents'] for one in then), -sum(work.values()), -deposits, 0])
        if shutil.which('hledger'):
            result = subprocess.run(['hledger', '-f', '-', 'balance', 'receivables', '-O', 'csv', '--depth', '1', '--no-total'], input=journal, capture_output=True, text=True)
            amounts = [in_cents(row[1].split()[0]) for row in list(csv.reader(io.StringIO(result.stdout)))[1:]]
            hold(f'{date}: hledger', (result.returncode, sum(amounts)), (0, sum(one['cents'] for one in then)))
    rows = list(csv.DictReader(io.StringIO(run('bill', '2027-B003', '--book', book, '--csv'))))
    hold('a made bill as CSV', [in_cents(row['amount']) for row in rows], [item['cents'] for item in made[2]['items']])
    for words in (['--page', room / 'x.html'], ['--draft'], ['--deposit', '5'], [half]):
        hold(f'a made bill takes no {words[0]}', 'C004' in run('bill', '2027-B003', *words, '--book', book, code=2), True)
    run('verify', book)


with tempfile.TemporaryDirectory() as name:
    for number, case in enumerate(CASES):
        room = pathlib.Path(name) / f'{number}'
        room.mkdir()
        one_case(room, *case)
    for number, story in enumerate((life_of_a_bill, option_taken, two_at_once, the_book_lists_them)):
        room = pathlib.Path(name) / f'story-{number}'
        room.mkdir()
        story(room)
end()
