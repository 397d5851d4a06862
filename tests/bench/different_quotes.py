#!/usr/bin/env python3
"""different_quotes.py PROGRAM FOLDER SEASONS: a book of so many seasons of the demo firm, ten quotes
and seven words each, in which no two quotes are of the same job: each has its own title, customer,
date, acres and miles."""
import os, pathlib, random, re, shutil, subprocess, sys

root = pathlib.Path(__file__).parent.parent.parent
# as the example book has them: the job, and what is asked beside
quotes = [('01-first-price', []), ('04-crossed', ['--option', 'Crossed']),
          ('03-rows-or-field', ['--option', 'Tree rows, two pulls']),
          ('07-three-fields', ['--by-block']),
          ('06-far-away', []), ('16-from-a-map', []), ('08-hard-pan', []),
          ('04-crossed', ['--option', 'Crossed']),
          ('14-old-block-to-rows', []), ('05-two-crawlers', [])]


def changed(text, chance, name):
    """The job with numbers of its own."""
    text = re.sub(r'^job "', f'job "{name}: ', text, flags=re.M)
    text = re.sub(r'^for( +)"', rf'for\1"{name}, ', text, flags=re.M)
    text = re.sub(r'^date( +)2027-(\d\d)-\d\d',
                  lambda found: f'date{found[1]}2027-{found[2]}-{chance.randint(10, 28)}', text,
                  flags=re.M)

    def near(found):
        number = float(found[2].replace(',', '')) * chance.uniform(0.85, 1.15)
        return f'{found[1]}{number:.1f}{found[3]}'
    return re.sub(r'^( *set (?:area|site\.miles) += )([0-9.,]+)( (?:ac|mi)\b)', near, text,
                  flags=re.M)


def main(program, folder, seasons):
    chance = random.Random(20270501)
    room = pathlib.Path(folder + '.room')
    for part in ['models', 'examples']:
        shutil.copytree(root / part, room / part)
    jobs = {job: (room / 'examples' / (job + '.job')).read_text() for job, _ in quotes}
    day = '2027-05-10'
    environment = dict(os.environ, SOURCE_DATE_EPOCH='1809961200')

    def run(*words):
        done = subprocess.run([program, *words, '--date', day, '--book', folder], env=environment,
                              stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
        if done.returncode != 0:
            sys.exit(f'{words}: {done.stdout.decode()}')

    given, records = 0, 0
    for season in range(seasons):
        for job, asked in quotes:
            given += 1
            path = room / 'examples' / f'q{given}.job'
            path.write_text(changed(jobs[job], chance, f'Ranch {given}'))
            run('quote', str(path), '--by', 'Dell Okafor',
                '--wording', str(root / 'examples' / 'quote.wording'), *asked)
            path.unlink()
        number = lambda back: f'2027-{given - back:03}'
        for back in range(7):
            run('mark', number(back), 'accepted' if back % 2 else 'turned down')
        records += 17
    shutil.rmtree(room)
    print(records)


main(sys.argv[1], sys.argv[2], int(sys.argv[3]))
