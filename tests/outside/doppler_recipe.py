#!/usr/bin/python3
"""How often a Doppler's number is right or halved, in a run that shares no code with the program.

Given the times of beats: six bursts of band noise a beat, sizes log-normal 0.2 an event, and again 0.2 for the aim that
drifts over 8 s; white noise 10 dB under them; rectified, 15 Hz low pass, 200 Hz, 3.75 s each 0.25 s, unbiased
autocorrelation, lags of 50 to 240 bpm, earliest local maximum of a share of the highest, blank under 0.25, median of
three. Right is within 5 % of the beats in the window. Valve times after Suzuki 1984 and Khandoker, the rest [practice];
the order of the bands follows from the published spectrum, 5, 50 and 95 % at 156, 242, 473 Hz: four poles give 159, 245,
472, two 143, 274, 948. Tools: SciPy (Debian).

    doppler_recipe.py SECONDS BEATS...     a file each rate, in it a line of beat times (s) each spell; told, a line each:
                                           right, halved at 0.8, right, halved at 0.9, per cent
"""
import sys

import numpy as np
from scipy import signal

FS, ENVELOPE, WINDOW, HOP = 4000, 200, 750, 50
# ms after the electrical start, width at half height, middle and width in Hz, size, whether it is squeezed with systole
EVENTS = [(-55, 60, 180, 90, 0.45, False), (45, 45, 250, 120, 0.8, True), (77, 25, 420, 200, 0.7, True),
          (140, 90, 220, 110, 0.6, True), (237, 25, 380, 180, 0.6, True), (285, 60, 230, 110, 0.5, True)]


def sound(beats, seconds, rng):
    n, edge = int(seconds * FS), 4 * FS
    interval = np.append(np.diff(beats), beats[-1] - beats[-2])
    out = np.zeros(n)
    for ms, width, hz, band, size, squeezed in EVENTS:
        at = beats + ms / 1000 * (1 - 0.25 * (0.43 - interval) / 0.43 if squeezed else 1)
        aim = np.exp(0.2 * rng.standard_normal(int(seconds / 8) + 3))
        sizes = size * np.exp(0.2 * rng.standard_normal(len(beats))) * np.interp(beats, 8 * np.arange(len(aim)), aim)
        struck = np.zeros(n + 2 * edge)
        np.add.at(struck, np.round(at * FS).astype(int) + edge, sizes)
        spread = width / 1000 / 2.3548
        t = np.arange(-int(4 * spread * FS), int(4 * spread * FS) + 1) / FS
        envelope = signal.fftconvolve(struck, np.exp(-0.5 * (t / spread) ** 2), "same")[edge : edge + n]
        shape = signal.butter(2, (hz - band / 2, hz + band / 2), "bandpass", fs=FS, output="sos")
        noise = signal.sosfilt(shape, rng.standard_normal(n))
        out += envelope * noise / noise.std()
    return out + np.sqrt(0.1 * np.mean(out**2)) * rng.standard_normal(n)


def numbers(x, beats, shares):
    low = signal.butter(2, 15, fs=FS, output="sos")
    e = signal.sosfilt(low, np.abs(x))[:: FS // ENVELOPE]
    starts = np.arange(2 * ENVELOPE, len(e) - WINDOW + 1, HOP)
    w = e[starts[:, None] + np.arange(WINDOW)]
    w = w - w.mean(axis=1, keepdims=True)
    r = np.fft.irfft(np.abs(np.fft.rfft(w, 2048, axis=1)) ** 2, axis=1)[:, :400]
    r = r / r[:, :1] * WINDOW / (WINDOW - np.arange(400))
    lag, before, after = r[:, 50:241], r[:, 49:240], r[:, 51:242]
    highest = lag.max(axis=1, keepdims=True)
    phase = lambda index: np.interp(index / ENVELOPE, beats, np.arange(len(beats)))
    truth = (phase(starts + WINDOW) - phase(starts)) * 60 * ENVELOPE / WINDOW
    for share in shares:
        good = (lag >= before) & (lag >= after) & (lag >= share * highest)
        bpm = np.where(good.any(axis=1) & (highest[:, 0] >= 0.25), 60 * ENVELOPE / (50 + good.argmax(axis=1)), np.nan)
        found, shown = [], []
        for one in bpm:
            if not np.isnan(one):
                found = (found + [one])[-3:]
            shown.append(np.median(found) if found else np.nan)
        yield np.array(shown) / truth


def main():
    seconds = float(sys.argv[1])
    for number, path in enumerate(sys.argv[2:]):
        told = []
        with open(path) as lines:
            for spell, line in enumerate(lines):
                beats = np.array(line.split(), dtype=float)
                x = sound(beats, seconds, np.random.default_rng([number, spell]))
                near = lambda shown, part: 100 * np.mean(np.abs(shown / part - 1) < 0.05)
                told.append([s for shown in numbers(x, beats, (0.8, 0.9)) for s in (near(shown, 1), near(shown, 0.5))])
        print(" ".join(f"{v:.2f}" for v in np.mean(told, axis=0)))
    return 0


if __name__ == "__main__":
    sys.exit(main())
