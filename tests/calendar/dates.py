#!/usr/bin/env python3
"""Holds the dates of `acrewright calendar` to a walk over another calendar, python's: dates.py PROGRAM. Seasons, jobs and stages are drawn
from a fixed seed; days are counted in twelfths, so that nothing is rounded."""
import datetime
import json
import pathlib
import random
import subprocess
import sys
import tempfile

program = pathlib.Path(sys.argv[1]).resolve()
draw = random.Random(2027)
NAMES = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday']
ONE = datetime.timedelta(days=1)
WHOLE = 12  # twelfths of a day


def season():
    """Lines of a season, and the same as a predicate."""
    weekdays = set(draw.sample(range(7), draw.choice([0, 1, 1, 2, 2, 3, 6])))
    spans = []
    for _ in range(draw.randrange(6)):
        first = datetime.date(2027, 1, 1) + datetime.timedelta(days=draw.randrange(900))
        spans.append((first, first + datetime.timedelta(days=draw.choice([0, 0, 0, 2, 9, 40]))))
    lines = [f'closed {NAMES[day]}' for day in sorted(weekdays)]
    for first, last in spans:
        lines.append(f'closed {first}' if first == last else f'closed {first} .. {last}')
    return lines, lambda day: day.weekday() in weekdays or any(first <= day <= last for first, last in spans)


def walked(date, stages, closed):
    """First and last day of each stage, day by day."""
    day = date
    while closed(day):
        day += ONE
    left = WHOLE  # of this day
    spans = []
    for waits, twelfths in stages:
        if twelfths == 0:
            continue
        if waits:
            first = day if left == WHOLE else day + ONE
            last = first + ONE * (twelfths // WHOLE - 1)
            day = last + ONE
            while closed(day):
                day += ONE
            left = WHOLE
            spans.append((first, last))
            continue
        first = None
        for _ in range(twelfths):
            if left == 0:
                day += ONE
                while closed(day):
                    day += ONE
                left = WHOLE
            first = first or day
            left -= 1
        spans.append((first, day))
    return spans


failed = 0
trials = 60
with tempfile.TemporaryDirectory() as folder:
    folder = pathlib.Path(folder)
    for trial in range(trials):
        lines, closed = season()
        stages = []
        for _ in range(draw.randrange(1, 5)):
            waits = draw.random() < 0.3
            stages.append((waits, WHOLE * draw.randrange(0, 30) if waits else draw.randrange(0, WHOLE * draw.choice([2, 12, 120]))))
        date = datetime.date(2027, 1, 1) + datetime.timedelta(days=draw.randrange(800))
        model = ['model "Work"', 'days : day = 1 day  "days"', 'cost crew : $/day = $100/day over days  "crew"', 'price "Work" lump']
        for at, (waits, twelfths) in enumerate(stages):
            model.append(f'{"wait" if waits else "stage"}_{at} : day = {twelfths} / {WHOLE} * 1 day  "part {at}"')
        (folder / 'work.rate').write_text('\n'.join(model) + '\n')
        (folder / 'season.season').write_text('\n'.join(['season "season"', *lines]) + '\n')
        (folder / 'work.job').write_text(f'job "Work"\nmodel "work"\nseason "season"\ndate {date}\n')
        run = subprocess.run([program, 'calendar', folder / 'work.job', '--json'], capture_output=True, text=True, check=False)
        answer = json.loads(run.stdout)
        spans = walked(date, stages, closed)
        told = [(row['first'], row['last']) for row in answer.get('dates', {}).get('stages', [])]
        wanted = [(str(first), str(last)) for first, last in spans]
        if told != wanted:
            failed += 1
            print('failed: trial', trial, lines, date, stages, '\n  told  ', told, '\n  wanted', wanted, run.stdout if not told else '')
            continue
        if not spans:
            continue
        start, finish = spans[0][0], spans[-1][1]
        off = sum(closed(start + ONE * i) for i in range((finish - start).days + 1))
        dates = answer['dates']
        if (dates['start'], dates['finish'], dates['closed_days'], dates['calendar_days']) != \
                (str(start), str(finish), off, (finish - start).days + 1):
            failed += 1
            print('failed: trial', trial, dates, start, finish, off)
print(f'{trials - failed} of {trials} calendars as python has them')
sys.exit(1 if failed else 0)
