#!/usr/bin/python3
"""Measures a rendered sound against its own truth, by methods that share no code with the program.

    acceptance.py count SOUND.wav TRUTH FROM TO     beats found in FROM..TO s, true ones, share matched, median offset ms
    acceptance.py mixed SOUND.wav STILL.wav TRUTH FROM TO DB   count, the still sound laid under the beats at DB of power
    acceptance.py plain TRUTH FROM TO DB            count, of the published kernels struck at the true beats, in white noise
    acceptance.py white SOUND.wav STILL.wav TRUTH OUT.wav FROM TO DB   writes the beats alone in white noise, its RMS over all
                                                    frequencies DB under the peak of the middle first sound
    acceptance.py tones SOUND.wav TRUTH FROM TO     first to second sound ms, centres of both Hz, first over second dB
    acceptance.py rate  SOUND.wav FROM TO           bpm, highest autocorrelation
    acceptance.py gaps  SOUND.wav FROM TO SHORT     beats found, intervals of one SHORT s, of two, of neither (within 15 %)
    acceptance.py power SOUND.wav FROM TO LOW HIGH  power between two frequencies
    acceptance.py step  SOUND.wav                   largest step from sample to sample
Several measurements: separated by --. A line each.

Method: band 25-120 Hz, squared Hilbert envelope, 12 Hz low pass, scipy.signal.find_peaks with 0.6 of the estimated
interval and a prominence of 0.15; matched one to one within 60 ms. Tools: SciPy (Debian).
"""
import sys
import wave

import numpy as np
from scipy import signal

from estimate_rate import rate_of, read


def band(x, fs, low, high, order=3):
    return signal.sosfiltfilt(signal.butter(order, (low, high), "bandpass", fs=fs, output="sos"), x)


def slow(x, rate, to=2000):
    return signal.resample_poly(x, 1, rate // to), to


def truth_of(path):
    return np.atleast_1d(np.loadtxt(path))


def count(path, truth, start, end):
    return counted(*read(path), truth, start, end)


def mixed(path, still, truth, start, end, db):
    x, rate = slow(*read(path), 4000)
    noise, _ = slow(*read(still), 4000)
    beats = x - noise
    part = slice(int(start * rate), int(end * rate))
    power = lambda y: np.mean(band(y, rate, 20, 150)[part] ** 2)
    louder = np.sqrt(power(beats) / power(noise)) * 10 ** (-db / 20)
    return counted(beats + louder * noise, rate, truth, start, end)


def plain(truth, start, end, db):
    """Two Gaussian sines a beat, all beats alike: 37.2 Hz and 85 ms, 55.6 Hz and 58 ms (between -20 dB points), 1.70 to 1
    (public source accompanying arXiv:2507.10783), 255 - rate / 2 ms apart."""
    rate, beats = 4000, truth_of(truth)
    x = np.zeros(int((beats[-1] + 1) * rate))
    later = np.clip(0.255 - 30 / np.diff(beats, append=2 * beats[-1] - beats[-2]) / 1000, 0.1, 0.24)
    for times, size, hz, length in ((beats, 1.7, 37.2, 0.085), (beats + later, 1, 55.6, 0.058)):
        for at in times:
            n = np.arange(max(0, int((at - 0.07) * rate)), int((at + 0.07) * rate))
            t = n / rate - at
            x[n] += size * np.exp(-0.5 * (4.2919 * t / length) ** 2) * np.cos(2 * np.pi * hz * t)
    noise = np.random.default_rng(int(1e6 * beats[0])).standard_normal(len(x))
    part = slice(int(start * rate), int(end * rate))
    power = lambda y: np.mean(band(y, rate, 20, 150)[part] ** 2)
    return counted(x + np.sqrt(power(x) / power(noise)) * 10 ** (-db / 20) * noise, rate, truth, start, end)


def white(path, still, truth, out, start, end, db):
    (x, rate), (rest, _) = read(path), read(still)
    beats, noise = x - rest, np.random.default_rng(1).standard_normal(len(x))
    first = truth_of(truth)
    first = first[(first >= start) & (first < end)]
    around = int(0.06 * rate)
    peak = np.median([np.abs(beats[int(t * rate) - around : int(t * rate) + around]).max() for t in first])
    y = beats + peak * 10 ** (-db / 20) * noise
    with wave.open(out, "wb") as f:
        f.setparams((1, 2, rate, 0, "NONE", ""))
        f.writeframes((16383 * y / np.abs(y).max()).astype("<i2").tobytes())
    return f"{len(y)}"


def counted(x, rate, truth, start, end):
    bpm, _ = rate_of(x[int(start * rate) : int(end * rate)], rate)
    x, fs = slow(x, rate)
    e = np.abs(signal.hilbert(band(x, fs, 25, 120))) ** 2
    e = signal.sosfiltfilt(signal.butter(2, 12, fs=fs, output="sos"), e)
    a, b = int(start * fs), int(end * fs)
    e = np.minimum(e, 4 * np.percentile(e[a:b], 90)) / np.percentile(e[a:b], 95)
    peaks, _ = signal.find_peaks(e, distance=0.6 * 60 / bpm * fs, prominence=0.15)
    found = peaks[(peaks >= a) & (peaks < b)] / fs
    beats = truth_of(truth)
    beats = beats[(beats >= start) & (beats < end)]
    off = [found[np.argmin(np.abs(found - t))] - t for t in beats]
    matched = [o for o in off if abs(o) < 0.06]
    return f"{len(found)} {len(beats)} {len(matched) / len(beats):.4f} {1e3 * np.median(matched):.2f}"


def tones(path, truth, start, end):
    x, rate = read(path)
    x, fs = slow(x, rate, 4000)
    beats = truth_of(truth)
    beats = beats[(beats > start + 0.2) & (beats < end - 0.6)]
    interval = np.median(np.diff(beats))
    half = 0.075
    # Energy laid over each other, noise (the quietest part of a beat) taken off.
    e = np.abs(signal.hilbert(band(x, fs, 15, 150, 2))) ** 2
    reach = int((interval + half) * fs)
    mean = np.mean([e[int((t - half) * fs) : int((t - half) * fs) + reach] for t in beats], axis=0)
    mean = mean - np.percentile(mean, 5)
    t = np.arange(reach) / fs - half
    first = np.abs(t) < half
    later = (t > 0.09) & (t < min(0.3, interval - 0.08))
    top = t[later][np.argmax(mean[later])]
    second = np.abs(t - top) < 0.05
    middle = lambda part: np.sum(mean[part] * t[part]) / np.sum(mean[part])
    size = 10 * np.log10(mean[first].max() / mean[second].max())

    def spectrum(at, width):
        n = int(2 * width * fs)
        w = signal.windows.tukey(n, 0.3)
        parts = [x[int((b + at - width) * fs) : int((b + at - width) * fs) + n] for b in beats]
        return np.mean([np.abs(np.fft.rfft(p * w, 8 * n)) ** 2 for p in parts], axis=0), np.fft.rfftfreq(8 * n, 1 / fs)

    quiet_at = (top + 0.06 + interval - 0.07) / 2
    quiet_half = max(0.02, (interval - 0.07 - top - 0.06) / 2)

    def centre(at, width):
        p, f = spectrum(at, width)
        q, g = spectrum(quiet_at, min(quiet_half, width))
        q = np.interp(f, g, q) * width / min(quiet_half, width)
        use = (f >= 15) & (f <= 110)
        p = np.maximum(p[use] - q[use], 0)
        return np.sum(p * f[use]) / np.sum(p)

    return f"{1e3 * (middle(second) - middle(first)):.2f} {centre(0, 0.09):.2f} {centre(top, 0.065):.2f} {size:.2f}"


def rate(path, start, end):
    x, fs = read(path)
    bpm, strength = rate_of(x[int(start * fs) : int(end * fs)], fs)
    return f"{bpm:.2f} {strength:.3f}"


def gaps(path, start, end, short):
    x, fs = slow(*read(path))
    e = np.abs(signal.hilbert(band(x, fs, 25, 120))) ** 2
    e = signal.sosfiltfilt(signal.butter(2, 12, fs=fs, output="sos"), e)[int(start * fs) : int(end * fs)]
    e = np.minimum(e, 4 * np.percentile(e, 90)) / np.percentile(e, 95)
    peaks, _ = signal.find_peaks(e, distance=0.6 * short * fs, prominence=0.15)
    apart = np.diff(peaks) / fs / short
    one, two = np.sum(np.abs(apart - 1) < 0.15), np.sum(np.abs(apart / 2 - 1) < 0.15)
    return f"{len(peaks)} {one} {two} {len(apart) - one - two}"


def power(path, start, end, low, high):
    x, fs = read(path)
    x, fs = slow(x, fs)
    f, p = signal.welch(x[int(start * fs) : int(end * fs)], fs, nperseg=fs // 2)
    use = (f >= low) & (f <= high)
    return f"{np.sum(p[use]) * (f[1] - f[0]):.6e}"


def step(path):
    x, _ = read(path)
    return f"{np.abs(np.diff(x)).max():.5f}"


def main():
    asked, words = {"count": count, "mixed": mixed, "plain": plain, "white": white, "tones": tones, "rate": rate, "gaps": gaps, "power": power, "step": step}, sys.argv[1:]
    while words:
        end = words.index("--") if "--" in words else len(words)
        name, path, *rest = words[:end]
        words = words[end + 1 :]
        files = {"count": 1, "tones": 1, "mixed": 2, "white": 3}.get(name, 0)
        print(asked[name](path, *[w if i < files else float(w) for i, w in enumerate(rest)]))
    return 0


if __name__ == "__main__":
    sys.exit(main())
