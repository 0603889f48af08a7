#!/usr/bin/python3
"""The rate in a rendered sound, by a method that shares no code with the program.

Squared Hilbert envelope (Doppler: plain), 12 Hz low pass, unbiased autocorrelation, earliest peak of at least 0.8 of
the highest between 50 and 240 bpm, parabolic interpolation. Tools: SciPy (Debian).

    estimate_rate.py [--from S] [--for S] KIND:SOUND.wav...     a line each: bpm, highest autocorrelation
"""
import argparse
import sys
import wave

import numpy as np
from scipy import signal

BANDS = {"tones": (25, 120), "raised": (150, 350), "doppler": (80, 600), "parts": (320, 600), "blow": (100, 400), "assisted": (180, 600)}


def read(path):
    with wave.open(path) as f:
        rate, channels = f.getframerate(), f.getnchannels()
        samples = np.frombuffer(f.readframes(f.getnframes()), dtype="<i2").astype(float) / 32768
    return samples[::channels], rate


def rate_of(samples, rate, kind="tones"):
    work = 4000
    x = signal.resample_poly(samples, 1, rate // work)
    low, high = BANDS[kind]
    x = signal.sosfiltfilt(signal.butter(3, (low, high), "bandpass", fs=work, output="sos"), x)
    envelope = np.abs(signal.hilbert(x))
    if kind not in ("doppler", "parts", "blow"):
        envelope = envelope**2
    envelope = signal.sosfiltfilt(signal.butter(2, 12, fs=work, output="sos"), envelope)[:: work // 200]
    envelope = np.minimum(envelope, 4 * np.percentile(envelope, 90))
    envelope -= envelope.mean()
    n = len(envelope)
    r = signal.correlate(envelope, envelope, mode="full")[n - 1 :]
    if r[0] < 1e-12:
        return 0.0, 0.0
    r = r / r[0] * n / (n - np.arange(n))
    first, last = 50, 240  # lags at 200 Hz: 240 to 50 bpm
    highest = r[first : last + 1].max()
    for k in range(first, last + 1):
        if r[k] >= 0.8 * highest and r[k] >= r[k - 1] and r[k] >= r[k + 1]:
            shift = 0.5 * (r[k - 1] - r[k + 1]) / (r[k - 1] - 2 * r[k] + r[k + 1])
            return 60 * 200 / (k + shift), highest
    return 0.0, highest


def main():
    p = argparse.ArgumentParser()
    p.add_argument("sounds", nargs="+", metavar="KIND:SOUND.wav")
    p.add_argument("--from", dest="start", type=float, default=0)
    p.add_argument("--for", dest="length", type=float, default=30)
    a = p.parse_args()
    for sound in a.sounds:
        kind, path = sound.split(":", 1)
        samples, rate = read(path)
        bpm, strength = rate_of(samples[int(a.start * rate) : int((a.start + a.length) * rate)], rate, kind)
        print(f"{bpm:.2f} {strength:.3f}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
