#!/usr/bin/env python3
"""against.py BEFORE [ROUNDS]: this checkout's program beside that of another, BEFORE, each built in
its own folder `build`. Both are asked the same of their own examples, in turn; a table of the least
processor time of each, in one run. ROUNDS: how often, 5."""
import os, pathlib, re, resource, shutil, statistics, subprocess, sys, tempfile

now = pathlib.Path(__file__).resolve().parent.parent.parent
job, pan = 'examples/01-first-price.job', 'examples/08-hard-pan.job'
environment = dict(os.environ, SOURCE_DATE_EPOCH='1822000000')


def used(root, words):
    """Seconds of the processor; None where the words are not understood."""
    child = subprocess.Popen([root / 'build/cli/acrewright', *words], cwd=root, env=environment,
                             stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, usage = os.wait4(child.pid, 0)
    child.returncode = os.waitstatus_to_exitcode(status)
    return usage.ru_utime + usage.ru_stime if child.returncode == 0 else None


class Compared:
    def __init__(self, before, rounds):
        self.roots, self.rounds = [before, now], rounds

    def row(self, title, words, unit='s', times=1, less=None):
        """WORDS of a root, or a list; LESS: words whose time is taken off, per TIMES."""
        took = [[], []]
        for _ in range(self.rounds):
            for i, root in enumerate(self.roots):
                asked = words(root) if callable(words) else words
                seconds = used(root, asked)
                if seconds is not None and less:
                    seconds -= used(root, less) or 0
                took[i].append(seconds)
        told = [None if None in each else min(each) / times for each in took]
        text = ['none' if each is None else f'{each * {"s": 1, "ms": 1e3, "us": 1e6}[unit]:.3g} {unit}'
                for each in told]
        ratio = f'{told[1] / told[0]:.2f}' if None not in told and told[0] > 0 else ''
        print(f'| {title} | {text[0]} | {text[1]} | {ratio} |', flush=True)


def lines(count):
    """A model of so many lines, which every version of the notation reads."""
    text = ['model "Generated"', 'noun tree']
    for i in range(count):
        text.append(f'given x{i} = {1 + i % 900}.5 ac  "area number {i}"  within 0 ac .. 10,000 ac'
                    if i % 3 == 0 else f'x{i} : ac = x{i - 1} + x{max(0, i - 7)} * 2 - x{i - 1} / 3  "line {i}"')
    return '\n'.join(text + [f'cost work : $/ac = $4.35/ac over x{count - 1}  "work"',
                             f'price "All" per ac of x{count - 1}', ''])


def book(root, folder, seasons):
    """A book of ten quotes a season, of each root's own examples."""
    jobs = sorted((root / 'examples').glob('*.job'))[:10]
    for season in range(seasons):
        for i, path in enumerate(jobs):
            used(root, ['quote', str(path), '--date', '2027-05-10', '--book', str(folder), '--set', f'site.miles={20 + season} mi'])



def season(root, folder, count):
    """So many shipped jobs, each on another day."""
    for part in ['models', 'examples']:
        shutil.copytree(root / part, folder / part)
    jobs = [path.read_text() for path in sorted((root / 'examples').glob('*.job'))]
    for path in (folder / 'examples').glob('*.job'):
        path.unlink()
    for i in range(count):
        text = re.sub(r'^date( +)\S+', rf'date\g<1>2027-{4 + i % 6:02}-{10 + i % 18}', jobs[i % len(jobs)], flags=re.M)
        (folder / 'examples' / f'{i}.job').write_text(text)
    return folder / 'examples'


def main(before, rounds=5):
    before = pathlib.Path(before).resolve()
    compared = Compared(before, int(rounds))
    with tempfile.TemporaryDirectory() as room:
        room = pathlib.Path(room)
        print('| | before | now | ratio |\n|---|---|---|---|')
        compared.row('start to price, job 01', ['price', job], 'ms')
        compared.row('start to price, job 08', ['price', pan], 'ms')
        for name, path in ('01', job), ('08', pan):
            compared.row(f'one more trial of `risk`, job {name}, one thread',
                         ['risk', path, '--trials', '262144', '--threads', '1'], 'us', 258048,
                         ['risk', path, '--trials', '4096', '--threads', '1'])
        compared.row('`sensitivity`, job 08', ['sensitivity', pan], 'ms')
        for size, count in ('66 KB', 1100), ('4 MB', 62000):
            (room / f'{count}.rate').write_text(lines(count))
            compared.row(f'`check` of {size}', ['check', str(room / f'{count}.rate')], 'ms')
        for records in 10, 100, 1000:
            folders = {root: room / f'{i}-{records}' for i, root in enumerate(compared.roots)}
            for root, folder in folders.items():
                book(root, folder, records // 10)
            compared.row(f'`verify`, {records:,} quotes', lambda root: ['verify', str(folders[root])])
            compared.row(f'the next quote after {records:,}', lambda root: ['quote', job, '--date', '2027-05-20', '--book', str(folders[root])], 'ms')
        compared.row('a card of 100,250 cells', ['rate-card', job, '--rows', 'spacing=5 ft..9 ft by 0.01 ft', '--columns',
                                                 'turn=0.5 min..1.497 min by 0.004 min', '--csv'])
        seasons = {}
        for i, root in enumerate(compared.roots):
            seasons[root] = season(root, room / f'season-{i}', 2000)
        compared.row('`season` of 2,000 shipped jobs', lambda root: ['season', str(seasons[root])])


main(*sys.argv[1:])
