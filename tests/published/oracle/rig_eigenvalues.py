"""Eigenvalues: by a QR iteration of its own, and by mpmath with 25 digits."""

import cmath
import math

import mpmath

mpmath.mp.dps = 25


def qr_eigenvalues(rows):
    """Eigenvalues of a real matrix: to Hessenberg form by elimination, then the shifted QR iteration."""
    h = [[complex(v) for v in row] for row in rows]
    n = len(h)
    for k in range(1, n - 1):
        pivot = max(range(k, n), key=lambda i: abs(h[i][k - 1]))
        if h[pivot][k - 1] == 0:
            continue
        h[k], h[pivot] = h[pivot], h[k]
        for row in h:
            row[k], row[pivot] = row[pivot], row[k]
        for i in range(k + 1, n):
            factor = h[i][k - 1] / h[k][k - 1]
            h[i] = [a - factor * b for a, b in zip(h[i], h[k])]
            for row in h:
                row[k] += factor * row[i]
    found, high, steps = [], n - 1, 0
    while high >= 0:
        low = high
        while low and abs(h[low][low - 1]) > 1e-16 * (abs(h[low][low]) + abs(h[low - 1][low - 1])):
            low -= 1
        if low == high:
            found.append(h[high][high])
            high, steps = high - 1, 0
            continue
        steps += 1
        if steps > 100:
            raise ArithmeticError("the QR iteration does not converge")
        qr_step(h, low, high, shift_of(h, high) if steps % 10 else abs(h[high][high - 1]))
    return found


def shift_of(h, high):
    a, b, c, d = h[high - 1][high - 1], h[high - 1][high], h[high][high - 1], h[high][high]
    root = cmath.sqrt((a - d) ** 2 / 4 + b * c)
    return min((a + d) / 2 + root, (a + d) / 2 - root, key=lambda value: abs(value - d))


def qr_step(h, low, high, shift):
    for i in range(low, high + 1):
        h[i][i] -= shift
    turns = []
    for i in range(low, high):
        a, b = h[i][i], h[i + 1][i]
        length = math.hypot(abs(a), abs(b))
        c, s = (a / length, b / length) if length else (1, 0)
        turns.append((c, s))
        upper, lower = h[i], h[i + 1]
        for j in range(i, high + 1):
            p, q = upper[j], lower[j]
            upper[j] = c.conjugate() * p + s.conjugate() * q
            lower[j] = c * q - s * p
    for i, (c, s) in enumerate(turns, low):
        for row in h[low : min(i + 2, high) + 1]:
            p, q = row[i], row[i + 1]
            row[i] = p * c + q * s
            row[i + 1] = q * c.conjugate() - p * s.conjugate()
    for i in range(low, high + 1):
        h[i][i] += shift


def swings(value):
    return abs(value.imag) > 1e-6 * abs(value)


def exact_eigenvalues(rows):
    values = [complex(v) for v in mpmath.eig(mpmath.matrix(rows), left=False, right=False)]
    largest = max(map(abs, values))
    for value in qr_eigenvalues(rows):
        if min(abs(value - each) for each in values) > 1e-7 * largest:
            raise ArithmeticError("the QR iteration and mpmath differ")
    return values
