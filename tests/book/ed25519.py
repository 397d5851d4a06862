"""Ed25519 as RFC 8032, section 5.1, has it, on Python's own integers: slow and plain. Checked against the vectors of section 7.1."""
import hashlib

p = 2**255 - 19
L = 2**252 + 27742317777372353535851937790883648493
d = -121665 * pow(121666, p - 2, p) % p


def add(a, b):
    x = (a[1] - a[0]) * (b[1] - b[0]) % p
    y = (a[1] + a[0]) * (b[1] + b[0]) % p
    t, z = 2 * a[3] * b[3] * d % p, 2 * a[2] * b[2] % p
    e, f, g, h = y - x, z - t, z + t, y + x
    return e * f % p, g * h % p, f * g % p, e * h % p


def times(k, point):
    result = (0, 1, 1, 0)
    while k:
        if k & 1:
            result = add(result, point)
        point, k = add(point, point), k >> 1
    return result


def root(y, sign):
    square = (y * y - 1) * pow(d * y * y + 1, p - 2, p) % p
    x = pow(square, (p + 3) // 8, p)
    if (x * x - square) % p:
        x = x * pow(2, (p - 1) // 4, p) % p
    if (x * x - square) % p or y >= p or (x == 0 and sign):
        return None
    return p - x if x & 1 != sign else x


def packed(point):
    inverse = pow(point[2], p - 2, p)
    x, y = point[0] * inverse % p, point[1] * inverse % p
    return (y | (x & 1) << 255).to_bytes(32, 'little')


def unpacked(data):
    y = int.from_bytes(data, 'little')
    sign, y = y >> 255, y & (1 << 255) - 1
    x = root(y, sign)
    return None if x is None else (x, y, 1, x * y % p)


def number(*parts):
    return int.from_bytes(hashlib.sha512(b''.join(parts)).digest(), 'little')


base_y = 4 * pow(5, p - 2, p) % p
base_x = root(base_y, 0)
base = (base_x, base_y, 1, base_x * base_y % p)


def halves(seed):
    digest = hashlib.sha512(seed).digest()
    return int.from_bytes(digest[:32], 'little') & (1 << 254) - 8 | 1 << 254, digest[32:]


def open_key(seed):
    """Of 32 bytes of seed, in hexadecimal digits."""
    return packed(times(halves(seed)[0], base)).hex()


def sign(message, seed):
    a, prefix = halves(seed)
    key = packed(times(a, base))
    r = number(prefix, message) % L
    point = packed(times(r, base))
    return (point + ((r + number(point, key, message) % L * a) % L).to_bytes(32, 'little')).hex()


def is_signed(message, signature, key):
    signature, key = bytes.fromhex(signature), bytes.fromhex(key)
    a, r = unpacked(key), unpacked(signature[:32])
    s = int.from_bytes(signature[32:], 'little')
    if len(signature) != 64 or a is None or r is None or s >= L:
        return False
    one, other = times(s, base), add(r, times(number(signature[:32], key, message) % L, a))
    return packed(one) == packed(other)


if __name__ == '__main__':
    # RFC 8032, section 7.1, TEST 1 and TEST 2.
    for seed, key, message, signature in (
            ('9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60', 'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a',
             b'', 'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b'),
            ('4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb', '3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c',
             b'r', '92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00')):
        assert open_key(bytes.fromhex(seed)) == key and sign(message, bytes.fromhex(seed)) == signature
        assert is_signed(message, signature, key) and not is_signed(message + b'x', signature, key)
