"""A quote book as a forger has it before him: every record open, sealed anew and signed anew with any key."""
import hashlib, json, pathlib, shutil
import ed25519
from verifier import canonical


class Book:
    def __init__(self, folder):
        self.folder = pathlib.Path(folder)
        self.records = [json.loads(file.read_bytes()) for file in sorted(self.folder.glob('[0-9]*.json'))]

    def copy(self, folder):
        shutil.rmtree(folder, ignore_errors=True)
        shutil.copytree(self.folder, folder)
        for file in pathlib.Path(folder).rglob('*'):
            file.chmod(0o755 if file.is_dir() else 0o644)
        return Book(folder)

    def path(self, index):
        return self.folder / f'{index:06}.json'

    def text(self, seal):
        return (self.folder / 'texts' / seal).read_text()

    def put_text(self, text):
        seal = hashlib.sha256(text.encode()).hexdigest()
        (self.folder / 'texts' / seal).write_bytes(text.encode())
        return seal

    def write(self, sign=None, head=True):
        """Everything sealed anew, in a chain that fits. sign(record): the seed to sign it with, or None."""
        for file in self.folder.glob('[0-9]*.json'):
            file.unlink()
        previous = None
        for index, record in enumerate(self.records, 1):
            for name in ('seal', 'signature', 'signer', 'previous'):
                record.pop(name, None)
            seed = sign(record) if sign else None
            if previous:
                record['previous'] = previous
            record['record'] = index
            if seed:
                record['signer'] = ed25519.open_key(seed)
            previous = record['seal'] = hashlib.sha256(canonical(record).encode()).hexdigest()
            if seed:
                record['signature'] = ed25519.sign(previous.encode(), seed)
            self.path(index).write_text(canonical(record) + '\n')
        if head:
            self.write_head(len(self.records), previous)

    def write_head(self, index, seal):
        (self.folder / 'head').write_text(f'{index} {seal}\n')
