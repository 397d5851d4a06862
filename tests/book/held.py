"""What the scripts of this folder hold to be so, and how they end."""
import sys

failed, held = [], []


def hold(what, got, wanted):
    held.append(what)
    if got != wanted:
        failed.append(f'{what}: {got!r}, and not {wanted!r}')


def end():
    for fault in failed[:20]:
        print('failed:', fault)
    print(f'{len(held)} held, {len(failed)} failed')
    sys.exit(1 if failed else 0)
