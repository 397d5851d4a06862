"""The attacks: each changes a book that forger.py has opened."""
import os


class Attack:
    def __init__(self, name, change=None, plain=True, reseal=True, after=None, signed=None, keep=False):
        """plain: found without a key or a head that was kept; keep: the forger has the firm's own key; signed: only in such a book."""
        self.name, self.change, self.plain, self.reseal = name, change or (lambda book: None), plain, reseal
        self.after, self.signed, self.keep = after, signed, keep


def quotes(book):
    return [record for record in book.records if record['kind'] == 'quote']


def words(book):
    return [record for record in book.records if record['kind'] == 'word']


def of_quote(name, change, number=0, **more):
    return Attack(name, lambda book: change(quotes(book)[number]), **more)


def of_word(name, change, number=0, **more):
    return Attack(name, lambda book: change(words(book)[number]), **more)


def at(record, path):
    """Where a member is: 'costs.0.rate'."""
    *way, last = path.split('.')
    for part in way:
        record = record[int(part) if isinstance(record, list) else part]
    return record, int(last) if isinstance(record, list) else last


def put(path, value):
    """A function gets what was there."""
    def change(record):
        inside, last = at(record, path)
        inside[last] = value(inside[last]) if callable(value) else value
    return change


def drop(path):
    def change(record):
        inside, last = at(record, path)
        del inside[last]
    return change


def all_of(*changes):
    return lambda record: [change(record) for change in changes]


def line(name, member, value):
    def change(record):
        entry = next(one for one in record['lines'] if one['name'] == name)
        entry[member] = value(entry[member]) if callable(value) else value
    return change


def new_text(book, record, name, old, new):
    text = book.text(record['texts'][name])
    assert old in text, (name, old)
    record['texts'][name] = book.put_text(text.replace(old, new))


def edit_text(name, old, new):
    return lambda book: new_text(book, quotes(book)[0], name, old, new)


def edit_page(form):
    def change(book):
        pages = quotes(book)[0]['pages']
        pages[form] = book.put_text(book.text(pages[form]).replace('44 ac', '4 ac'))
    return change


def edit_wording(book):
    record = quotes(book)[0]
    record['wording']['text'] = book.put_text(book.text(record['wording']['text']) + '\n- Free of charge after a year.\n')


def move(book, record, to):
    book.records.remove(record)
    book.records.insert(to, record)


def less(value):
    return value - 100


PRICE = [
    of_quote('the price', put('price.cents', less)),
    of_quote('the price and an item together', all_of(put('price.cents', less), put('items.0.cents', less))),
    of_quote('an item and another', all_of(put('items.0.cents', less), put('items.1.cents', lambda cents: cents + 100))),
    of_quote('what a cost comes to', put('costs.0.amount', less)),
    of_quote('the rate of a cost', put('costs.0.rate', lambda rate: rate * 1.001)),
    of_quote('the quantity of a cost', put('costs.1.quantity', less)),
    of_quote('a cost by the unit', put('costs.1.per_unit', 1)),
    of_quote('the label of a cost', put('costs.0.label', 'water')),
    of_quote('the unit of a cost', put('costs.0.rate_unit', '$/L')),
    of_quote('a cost taken out', drop('costs.0')),
    of_quote('a cost put in', lambda record: record['costs'].append({**record['costs'][0], 'name': 'tip'})),
    of_quote('a cost twice', lambda record: record['costs'].append(dict(record['costs'][0]))),
    of_quote('the rate of an item', put('items.0.rate', 1)),
    of_quote('the quantity of an item', put('items.0.quantity', 43)),
    of_quote('the title of an item', put('items.0.title', 'Mowing and raking')),
    of_quote('what an item costs', put('items.0.cost', 1)),
    of_quote('a step of an item', put('items.0.steps.0.added', 1)),
    of_quote('the words of a step', put('items.0.steps.1.text', 'margin 10 %')),
    of_quote('the price by the unit', put('price.per_unit', less)),
    of_quote('the direct cost', put('price.cost', less)),
    of_quote('a given', put('givens.0.value', 43)),
    of_quote('why a given is so', put('givens.0.because', 'measured')),
    of_quote('where a given was set', put('givens.0.place', 'other.job:2')),
    of_quote('who set a given', put('givens.0.set_by', 'season')),
    of_quote('a line', line('machine_hours', 'value', less)),
    of_quote('the unit of a line', line('machine_hours', 'unit', 'day')),
    of_quote('a line taken out', drop('lines.0')),
    of_quote('a choice', line('ground', 'choice', 'rough')),
    of_quote('a caution taken out', drop('cautions')),
    of_quote('an option offered at another price', all_of(put('options.0.cents', less), put('options.0.items.0.cents', less)), 1),
    of_quote('an option taken out', drop('options'), 1),
    of_quote('a quantile', put('risk.spreads.0.quantiles.0.value', 1)),
    of_quote('what was drawn', drop('risk.drawn.0')),
    of_quote('the chance of a loss', put('risk.loss', 0.5)),
]
NAMES = [
    of_quote('the customer', put('job.for', 'Another')),
    of_quote('the job', put('job.title', 'Another')),
    of_quote('the day of the work', put('job.date', '2027-05-01')),
    of_quote('a first day of the work', lambda record: record['job'].update(start='2027-05-01')),
    of_quote('a block that the job does not have', lambda record: record.update(blocks=[{'label': 'Creek', 'acres': '44 ac', 'cents': 1}])),
    of_quote('the firm', put('firm.name', 'Another')),
    of_quote('the license', put('firm.words.0.text', 'TF-0418')),
    of_quote('the money',
             lambda record: record.update(money={'code': 'AUD', 'sign': 'A$', 'step': 1})),
    of_quote('who quoted', put('by', 'Hallam')),
    of_quote('the day of issue', put('issued', '2027-02-27')),
    of_quote('the last day', put('valid_until', '2027-12-31')),
    of_quote('what was accepted of warnings', lambda record: record.update(accepted=['L801']), plain=False),
    of_quote('the time of writing', put('written', '2027-03-07T11:00:00Z'), plain=False),
    of_quote('a member that nobody knows', lambda record: record.update(weather='dry'), plain=False),
    of_quote('another version, to hide a price', all_of(put('program', '0.0.9'), put('price.cents', less), put('items.0.cents', less))),
    of_quote('no version', drop('program')),
    of_quote('no time of writing', drop('written')),
    of_quote('a schema of tomorrow', lambda record: record.update(schema='acrewright.record/9'), reseal=True),
    of_word('the note of a word', put('note', 'by telephone'), plain=False),
    of_word('the day of a word', put('date', '2027-03-04'), plain=False),
]
TEXTS = [
    Attack('a model with another margin', edit_text('models/mowing.rate', 'margin 20 %', 'margin 19 %')),
    Attack('a model with another word', edit_text('models/mowing.rate', 'acres mowed', 'acres cut')),
    Attack('another season', edit_text('2027.season', '$4.40', '$4.30')),
    Attack('another firm', edit_text('tamarack.firm', 'TF-0417', 'TF-0418')),
    Attack('another job', edit_text('meadow.job', '44 ac', '45 ac')),
    Attack('the page as HTML', edit_page('html')),
    Attack('the page as text', edit_page('text')),
    Attack('no page', lambda book: quotes(book)[0].pop('pages')),
    Attack('the wording', edit_wording),
    of_quote('what was set', put('request.sets.0.1', '47 ac'), 3),
    of_quote('the option', lambda record: record['request'].update(option='Fast'), 1),
    of_quote('the version of the notation', put('request.notation', 1)),
    of_quote('a reference', put('references.0.name', 'meadow.job')),
    of_quote('a seal that is none', put('pages.html', '../../head')),
    Attack('a text that is gone', after=lambda book: (book.folder / 'texts' / quotes(book)[0]['texts']['meadow.job']).unlink(), reseal=False),
    Attack('a text that is another', after=lambda book: (book.folder / 'texts' / quotes(book)[0]['pages']['html']).write_text('x'), reseal=False),
    Attack('a log that is gone', after=lambda book: (book.folder / 'texts' / [w for w in words(book) if 'log' in w][0]['log']).unlink(), reseal=False),
]


def renumber(book):
    quotes(book)[1].update(quote='2027-001')


def drop_acceptance(book):
    book.records.remove(words(book)[0])


def drop_record(number):
    return lambda book: book.records.pop(number)


RULES = [
    Attack('a number twice', renumber),
    of_quote('a number that jumps', put('quote', '2027-009'), 2),
    of_quote('a counter', put('counter.2027', 9), 1),
    of_word('a word on no quote', put('quote', '2027-088')),
    of_word('a word that does not follow', put('state', 'finished')),
    of_word('a word of no state', put('state', 'sold')),
    of_word('a word before its quote', put('date', '2027-02-01')),
    of_word('a day that is none', put('date', '2027-02-30')),
    Attack('a replaced quote accepted', lambda book: words(book)[-1].update(quote='2027-002', state='accepted', option='Fast')),
    Attack('an option that was not offered', lambda book: [w for w in words(book) if 'option' in w][0].update(option='Cheap')),
    Attack('an option that is not said', lambda book: [w for w in words(book) if 'option' in w][0].pop('option')),
    Attack('an acceptance taken out', drop_acceptance),
    Attack('a change order from another start', lambda book: [q for q in quotes(book) if 'changes' in q][0].update(before_cents=1)),
    Attack('a change order of an open offer', lambda book: [q for q in quotes(book) if 'changes' in q][0].update(changes='2027-003')),
    Attack('a quote that replaces an accepted one', lambda book: [q for q in quotes(book) if 'replaces' in q][0].update(replaces='2027-001')),
    Attack('a word that puts right what is not the last', lambda book: words(book)[-1].update(corrects=3)),
    Attack('a record taken out', drop_record(2)),
    Attack('two records in each other\'s place', lambda book: book.records.insert(2, book.records.pop(5))),
    Attack('a record put in', lambda book: book.records.append({**words(book)[-1], 'state': 'accepted'})),
]


def no_seal(book):
    path = book.path(3)
    path.write_text(path.read_text().replace('"seal":"', '"seal":"0'))


def other_form(change):
    def after(book):
        path = book.path(3)
        path.write_text(change(path.read_text()))
    return after


def take_newest(book, head):
    book.path(len(book.records)).unlink()
    if head:
        book.write_head(len(book.records) - 1, book.records[-2]['seal'])


def forge_index(book):
    import hashlib
    seal = book.records[0]['seal']
    lines = '{"kind":"quote","record":1,"seal":"%s","version":2}\n' % seal
    (book.folder / 'index').write_text(f'acrewright.index/1 1 {seal} {hashlib.sha256(lines.encode()).hexdigest()}\n{lines}')


def fifo(name):
    def after(book):
        (book.folder / name).unlink()
        os.mkfifo(book.folder / name)
    return after


def link(book):
    book.path(3).rename(book.folder.parent / 'outside.json')
    book.path(3).symlink_to('../outside.json')


FOLDER = [
    Attack('one byte', after=other_form(lambda text: text.replace('2027-03-0', '2027-03-1', 1)), reseal=False),
    Attack('a seal', after=no_seal, reseal=False),
    Attack('blanks', after=other_form(lambda text: text.replace(',', ', ', 1)), reseal=False),
    Attack('a number printed otherwise', after=other_form(lambda text: text.replace('"record":3', '"record":3.0')), reseal=False),
    Attack('a member twice', after=other_form(lambda text: text.replace('{', '{"by":"x",', 1)), reseal=False),
    Attack('no line end', after=other_form(lambda text: text[:-1]), reseal=False),
    Attack('half a record', after=other_form(lambda text: text[:len(text) // 2]), reseal=False),
    Attack('an empty record', after=other_form(lambda text: ''), reseal=False),
    Attack('a file of a record gone', after=lambda book: book.path(4).unlink(), reseal=False),
    Attack('the newest gone', after=lambda book: take_newest(book, False), reseal=False),
    Attack('the newest gone, and the head written anew', after=lambda book: take_newest(book, True), reseal=False, plain=False),
    Attack('no head', after=lambda book: (book.folder / 'head').unlink(), reseal=False),
    Attack('a head of another record', after=lambda book: book.write_head(len(book.records), book.records[0]['seal']), reseal=False),
    Attack('half a head', after=lambda book: (book.folder / 'head').write_text('9 ab'), reseal=False),
    Attack('a pipe for a record', after=fifo('000003.json'), reseal=False),
    Attack('a pipe for a head', after=fifo('head'), reseal=False),
    Attack('a link for a record', after=link, reseal=False),
    Attack('a stray file', after=lambda book: (book.folder / '3.json').write_text('{}'), reseal=False),
    Attack('an index that lies', after=forge_index, reseal=False),
    Attack('every record gone', after=lambda book: [book.path(i + 1).unlink() for i in range(len(book.records))], reseal=False),
    Attack('everything gone', after=lambda book: [file.unlink() for file in book.folder.glob('*') if file.is_file()], reseal=False),
]


def strip(book):
    """One record without its signature, all after it sealed anew: as who has no key must leave it."""
    import hashlib
    from verifier import canonical
    previous = book.records[3]['seal']
    for index, record in enumerate(book.records[4:], 5):
        for name in ('seal', 'signature', 'signer'):
            record.pop(name, None)
        record['previous'] = previous
        previous = record['seal'] = hashlib.sha256(canonical(record).encode()).hexdigest()
        book.path(index).write_text(canonical(record) + '\n')
    book.write_head(len(book.records), previous)


def resigned(seed):
    """The last record signed with another key."""
    def after(book):
        import ed25519, hashlib
        from verifier import canonical
        record = book.records[-1]
        record.update(signer=ed25519.open_key(seed), note='forged')
        for name in ('seal', 'signature'):
            record.pop(name, None)
        record['seal'] = hashlib.sha256(canonical(record).encode()).hexdigest()
        record['signature'] = ed25519.sign(record['seal'].encode(), seed)
        book.path(len(book.records)).write_text(canonical(record) + '\n')
        book.write_head(len(book.records), record['seal'])
    return after


def foreign(book):
    """The firm's key named, another's signature."""
    import ed25519
    record = book.records[-1]
    record['signature'] = ed25519.sign(record['seal'].encode(), bytes([3]) * 32)
    from verifier import canonical
    book.path(len(book.records)).write_text(canonical(record) + '\n')


def key_change(action, key, signed_by):
    """A record of keys put at the end, by a key that may not."""
    def after(book):
        import ed25519, hashlib
        from verifier import canonical
        last = book.records[-1]
        record = {'schema': last['schema'], 'kind': 'key', 'action': action, 'key': key(book), 'date': '2027-06-01', 'program': last['program'],
                  'written': last['written'], 'counter': last['counter'], 'record': len(book.records) + 1, 'previous': last['seal'],
                  'signer': ed25519.open_key(signed_by)}
        record['seal'] = hashlib.sha256(canonical(record).encode()).hexdigest()
        record['signature'] = ed25519.sign(record['seal'].encode(), signed_by)
        book.path(len(book.records) + 1).write_text(canonical(record) + '\n')
        book.write_head(len(book.records) + 1, record['seal'])
    return after


def unsigned(book):
    book.records = [record for record in book.records if record['kind'] != 'key']


def forger_key(book):
    import ed25519
    return ed25519.open_key(bytes([3]) * 32)


KEYS = [
    Attack('every signature taken off, keys and all', unsigned, signed=True, plain=False, after=lambda book: None),
    Attack('signatures taken off from some record on', after=strip, reseal=False, signed=True),
    Attack('a record signed by a key that was never admitted', after=resigned(bytes([3]) * 32), reseal=False, signed=True),
    Attack('a signature that is another\'s', after=foreign, reseal=False, signed=True),
    Attack('a key admitted by itself', after=key_change('admit', forger_key, bytes([3]) * 32), reseal=False, signed=True),
    Attack('a key retired by who may not', after=key_change('retire', lambda book: book.records[0]['key'], bytes([3]) * 32), reseal=False, signed=True),
    Attack('the whole book under another key', signed=True, plain=False),
    Attack('a signature where no key was admitted', after=resigned(bytes([3]) * 32), reseal=False, signed=False),
]

ATTACKS = PRICE + NAMES + TEXTS + RULES + FOLDER + KEYS
