"""One index in time by another road: the same mechanics as a smooth differential equation, integrated by scipy's implicit Radau.

Friction is a tanh over a small speed, the nip slips through a stiff dashpot, the peel line fades in over a few micrometres; nothing sticks.
So it differs from the law with true stick by what these smooth over, and tells whether equations and signs are the same. Run with python3,
numpy and scipy:

    python3 validation/independent/cycle.py                 the invented unit: figures that stand in validation/src/cycle.ts
    python3 validation/independent/cycle.py DESIGNS.json    designs as `npm run speed -- index` writes them; one JSON answer a line

An answer: {"x": end of the tape, m, "brake": time of the brake, s or null, "current": greatest, A, "ms": processor time it took}.
Options: --rtol 1e-7, --speed 2e-6 (m/s over which friction turns), --seconds 60 (stop after so long).
"""

import json
import sys
import time

import numpy as np
from scipy.integrate import solve_ivp
from scipy.interpolate import CubicSpline

INVENTED = {
    "feed": {"volts": 10, "R": 16, "L": 1.5e-3, "k": 3e-3, "J": 1e-8, "T0": 1.5e-4, "ratio": 480, "worm": {"lead": 0.0873, "friction": 0.08, "pressure": 0.349},
             "backlash": 6.5e-3, "stiffness": 117, "damping": 0.15, "shaftInertia": 4.5e-7, "shaftFriction": 2e-3},
    "peel": {"volts": 10, "R": 16, "L": 1.5e-3, "k": 3e-3, "J": 1e-8, "T0": 1.5e-4, "ratio": 200, "worm": {"lead": 0.0873, "friction": 0.08, "pressure": 0.349},
             "backlash": 20e-3, "stiffness": 30, "damping": 0.15, "shaftInertia": 2e-7, "shaftFriction": 1e-3},
    "wheel": {"radius": 15.279e-3, "pitch": 1, "lo": [-0.05e-3], "hi": [0.05e-3], "stiffness": 1e5, "damping": 0.1},
    "tape": {"mass": 4e-3, "sliding": 0.35, "sticking": 0.45, "fallSpeed": 5e-3, "viscous": 0.5},
    "reel": {"inertia": 6e-5, "radius": 0.06, "friction": 4e-3, "stiffness": 2000, "damping": 0.3, "slack": 1.5e-3},
    "film": {"stiffness": 4000, "angle": 170 * np.pi / 180, "bars": 1, "peelForce": 0.5, "speed": 5e-3, "exponent": 0.15, "slow": 1e-3, "traction": 2, "roller": 5e-3},
    "commands": {"feedStart": 5e-3, "travel": 4e-3, "lead": 0.25e-3, "end": 0.1},
}


def efficiencies(d):
    if d.get("worm"):
        t, c, mu = np.tan(d["worm"]["lead"]), np.cos(d["worm"]["pressure"]), d["worm"]["friction"]
        return t * (c - mu * t) / (c * t + mu), (c * t - mu) / ((c + mu * t) * t)
    return d["forward"], d["backward"]


def periodic(samples, pitch):
    """A closed cubic spline through samples of one tooth pitch; value and slope."""
    if len(samples) == 1:
        return lambda phi: (samples[0], 0.0)
    f = CubicSpline(np.linspace(0, pitch, len(samples) + 1), list(samples) + [samples[0]], bc_type="periodic")
    return lambda phi: (float(f(phi)), float(f(phi, 1)))


def equation(d, VA, VB, turning):
    """Right-hand side for the state: two drives of current, rotor speed, rotor angle, shaft speed, shaft angle; tape, reel; film drawn, peeled."""
    A, B, wheel, tape, reel, film = d["feed"], d["peel"], d["wheel"], d["tape"], d["reel"], d["film"]
    effA, effB = efficiencies(A), efficiencies(B)
    r, rn, Rr = wheel["radius"], film["roller"], reel["radius"]
    lo, hi = periodic(wheel["lo"], wheel["pitch"]), periodic(wheel["hi"], wheel["pitch"])
    kh, dh = wheel["stiffness"], 2 * wheel["damping"] * np.sqrt(wheel["stiffness"] * tape["mass"])
    kw, dw = reel["stiffness"], 2 * reel["damping"] * np.sqrt(reel["stiffness"] * tape["mass"])
    P = lambda v: film["peelForce"] * (v / film["speed"]) ** film["exponent"]
    slow, Pslow = film["slow"], P(film["slow"])
    c, bars, fade = np.cos(film["angle"]), film["bars"], 1e-6
    dash = 2e-3  # N s/m of the slipping nip

    def spring(gap, rate, play, k, damp):
        if gap > play:
            return max(0.0, k * (gap - play) + damp * rate)
        if gap < -play:
            return min(0.0, k * (gap + play) + damp * rate)
        return 0.0

    def drive(m, eff, V, i, w, th, shaft, angle):
        M = spring(th / m["ratio"] - angle, w / m["ratio"] - shaft, m["backlash"] / 2, m["stiffness"], 2 * m["damping"] * np.sqrt(m["stiffness"] * m["shaftInertia"]))
        loss = (1 / eff[0] - 1) if M * w > 0 else (1 - eff[1])
        rub = (m["T0"] + abs(M) / m["ratio"] * loss) * np.tanh(w / (turning * m["ratio"] / r))
        return M, (V - m["R"] * i - m["k"] * w) / m["L"], (m["k"] * i - M / m["ratio"] - rub) / m["J"]

    def f(_, s):
        iA, wA, thA, W, phi, v, x, wr, psi, iB, wB, thB, wR, ang, drawn, peeled = s
        MA, diA, dwA = drive(A, effA, VA, iA, wA, thA, W, phi)
        MB, diB, dwB = drive(B, effB, VB, iB, wB, thB, wR, ang)
        (low, lowSlope), (high, highSlope) = lo(phi), hi(phi)
        hole, torque = 0.0, 0.0
        if r * phi + low > x:
            hole = max(0.0, kh * (r * phi + low - x) + dh * ((r + lowSlope) * W - v))
            torque = (r + lowSlope) * hole
        elif x > r * phi + high:
            hole = -max(0.0, kh * (x - r * phi - high) + dh * (v - (r + highSlope) * W))
            torque = (r + highSlope) * hole
        e = x - Rr * psi - reel["slack"]
        web = max(0.0, kw * e + dw * (v - Rr * wr)) if e > 0 else 0.0
        # Peel line at y = x - peeled past the edge; free of it over the length `fade`. Force on the tape = - d(energy)/dx.
        y = (x - peeled) / fade
        s1 = 0.0 if y <= 0 else 1.0 if y >= 1 else y * y * (3 - 2 * y)
        g = 0.0 if y <= 0 else (y - 0.5) * fade if y >= 1 else fade * y**3 * (1 - y / 2)
        stretch = drawn - x + (1 - c) * g
        T = film["stiffness"] * stretch if stretch > 0 else 0.0
        at_line = T / bars * s1
        peeling = 0.0 if at_line <= 0 else slow * at_line / Pslow if at_line < Pslow else film["speed"] * (at_line / film["peelForce"]) ** (1 / film["exponent"])
        slip = (T - film["traction"]) / dash if T > film["traction"] else 0.0
        q = min(v * v / tape["fallSpeed"] ** 2, 700)
        rub = (tape["sliding"] + (tape["sticking"] - tape["sliding"]) * np.exp(-q)) * np.tanh(v / turning) + tape["viscous"] * v
        return [
            diA, dwA, wA, (MA - torque - A["shaftFriction"] * np.tanh(W * r / turning)) / A["shaftInertia"], W,
            (hole - rub - web + T / bars * (1 - (1 - c) * s1)) / tape["mass"], v,
            (Rr * web - reel["friction"] * np.tanh(wr * Rr / turning)) / reel["inertia"], wr,
            diB, dwB, wB, (MB - rn * T - B["shaftFriction"] * np.tanh(wR * rn / turning)) / B["shaftInertia"], wR,
            rn * wR - slip, peeling,
        ]

    return f


ATOL = np.array([1e-6, 1e-2, 1e-4, 1e-4, 1e-8, 1e-6, 1e-10, 1e-4, 1e-8, 1e-6, 1e-2, 1e-4, 1e-4, 1e-8, 1e-9, 1e-9])


def index(d, rtol=1e-7, turning=2e-6, seen=None):
    """One index; `seen` collects times and states of all steps."""
    com, feed, peel = d["commands"], d["feed"], d["peel"]
    goal = com["travel"] - com["lead"]

    def reached(_, s):
        return s[2] / feed["ratio"] * d["wheel"]["radius"] - goal

    reached.terminal, reached.direction = True, 1
    s, t, brake, current = np.zeros(16), 0.0, None, 0.0
    begun = time.process_time()
    for V, until, event in ((0, com["feedStart"], None), (feed["volts"], com["end"], reached), (0, com["end"], None)):
        if until - t < 1e-12:
            continue
        out = solve_ivp(equation(d, V, peel["volts"], turning), (t, until), s, method="Radau", rtol=rtol, atol=ATOL, events=event, max_step=1e-3, dense_output=seen is not None)
        s, t, current = out.y[:, -1], out.t[-1], max(current, out.y[0].max())
        if seen is not None:
            fine = np.linspace(out.t[0], out.t[-1], 1 + int((out.t[-1] - out.t[0]) / 2e-5))
            seen.extend(zip(fine, out.sol(fine).T))
        if event is not None and t < until - 1e-12:
            brake = t
    return {"x": s[6], "brake": brake, "current": current, "ms": 1e3 * (time.process_time() - begun)}


def measures(d):
    """Greatest speed of the tape, its greatest change in 1 ms, greatest force of a tooth and of the nip; when the wheel stays within 10 um of its end."""
    seen = []
    index(d, 1e-9, 2e-6, seen)
    t, s = np.array([a for a, _ in seen]), np.array([b for _, b in seen])
    wheel, tape, film = d["wheel"], d["tape"], d["film"]
    v, x, phi, W = s[:, 5], s[:, 6], s[:, 4], s[:, 3]
    gap = wheel["radius"] * phi + wheel["lo"][0] - x
    force = np.where(gap > 0, wheel["stiffness"] * gap + 2 * wheel["damping"] * np.sqrt(wheel["stiffness"] * tape["mass"]) * (wheel["radius"] * W - v), 0)
    y = np.maximum(0, x - s[:, 15])
    tension = film["stiffness"] * np.maximum(0, s[:, 14] - x + (1 - np.cos(film["angle"])) * y)
    later = np.interp(t + 1e-3, t, v)
    far = np.nonzero(np.abs(phi - phi[-1]) * wheel["radius"] > 10e-6)[0]
    return {"speed": v.max(), "jolt": np.abs(later - v).max(), "hole": force.max(), "tension": tension.max(), "stands": t[far[-1] + 1]}


def rigid(V, R, k, J, load, T, per_turn, travel, lead):
    """A rigid drive: where it stops, and when it is 10 um from there."""
    half = solve_ivp(lambda t, s: [(k * (V - k * s[0]) / R - T) / (J + load), s[0]], (0, 5), [0.0, 0.0], rtol=1e-11, atol=1e-12, events=[stops_at((travel - lead) / per_turn)])
    w, x = half.y[:, -1]
    braked = solve_ivp(lambda t, s: [(-k * k * s[0] / R - T) / J, s[0]], (0, 5), [w, x], rtol=1e-11, atol=1e-12, events=[standing()], dense_output=True)
    end = braked.y[1, -1]
    ts = np.linspace(0, braked.t[-1], 200001)
    far = np.nonzero((end - braked.sol(ts)[1]) * per_turn > 10e-6)[0]
    return end * per_turn, half.t[-1] + (ts[far[-1]] if len(far) else 0)


def stops_at(angle):
    event = lambda t, s: s[1] - angle
    event.terminal, event.direction = True, 1
    return event


def standing():
    event = lambda t, s: s[0]
    event.terminal, event.direction = True, -1
    return event


def option(name, otherwise):
    return float(sys.argv[sys.argv.index(name) + 1]) if name in sys.argv else otherwise


if __name__ == "__main__":
    rtol, turning, seconds = option("--rtol", 1e-7), option("--speed", 2e-6), option("--seconds", 1e9)
    if len(sys.argv) > 1 and not sys.argv[1].startswith("--"):
        begun = time.perf_counter()
        with open(sys.argv[1]) as file:
            designs = json.load(file)
        for design in designs:
            if time.perf_counter() - begun > seconds:
                break
            print(json.dumps(index(design, rtol, turning)), flush=True)
    else:
        for speed in (2e-5, 2e-6, 2e-7):
            a = index(INVENTED, 1e-9, speed)
            print("invented unit, friction turning over %.1f um/s: tape at 100 ms %.6f mm, brake at %.4f ms, greatest current %.5f A" % (speed * 1e6, a["x"] * 1e3, a["brake"] * 1e3, a["current"]))
        m = measures(INVENTED)
        print("its greatest speed %.5f m/s, change in 1 ms %.5f m/s, force of a tooth %.4f N, pull of the nip %.4f N" % (m["speed"], m["jolt"], m["hole"], m["tension"]))
        bare = {**INVENTED, "peel": {**INVENTED["peel"], "volts": 0}, "film": {**INVENTED["film"], "stiffness": 1e-6}}
        bare["commands"] = {**INVENTED["commands"], "feedStart": 0, "lead": 1.2e-3, "end": 0.25}
        print("without a film, lead 1.2 mm, started at once: its wheel stands after %.3f ms" % (1e3 * measures(bare)["stands"]))
        # 12 V cold, 11.2 V hot, 20 % more drag: the numbers of the row in validation/src/cycle.ts.
        drive = dict(R=16, k=3e-3, J=1e-8, load=1.2e-9, T=3.2e-4, per_turn=15.2789e-3 / 200, travel=8e-3)
        from scipy.optimize import brentq

        lead = brentq(lambda a: rigid(12, lead=a, **drive)[0] - 8e-3, 1e-4, 7e-3, xtol=1e-12)
        print("rigid drive: lead %.5f mm, stands after %.4f ms" % (1e3 * lead, 1e3 * rigid(12, lead=lead, **drive)[1]))
        hot = {**drive, "R": 20, "k": 2.7e-3}
        print("hot at 11.2 V its stop shifts by %.3f um, with 3.6e-4 N m by %.3f um" % (1e6 * (rigid(11.2, lead=lead, **hot)[0] - 8e-3), 1e6 * (rigid(12, lead=lead, **{**drive, "T": 3.6e-4})[0] - 8e-3)))
