"""An independent solution of one radial line of the roast model, by SciPy.

Not part of the test suite: it makes the table data/published/reference-lines.json, against which
the library's own solver is checked. It shares no code and no scheme with the library: cell-centred
finite volumes on a fine graded mesh, method of lines, and a stiff variable-order integrator with
error control, where the library uses few vertex-centred shells and fixed steps.

Run with any Python that has NumPy and SciPy (no other need):

    python3 reference-lines.py                 all cases, all convergence runs, writes the table
    python3 reference-lines.py --cells 100     one quick run, prints the key figures, writes nothing

SI units; temperatures in degrees Celsius, kelvin only inside the fourth power. Everything is per
metre of an infinite cylinder: no exchange along the axis.
"""

import argparse
import json
import math
import pathlib
import sys

import numpy as np
import scipy
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, minimize_scalar
from scipy.sparse import coo_matrix
from scipy.special import j0, j1

# --- constants ------------------------------------------------------------------------------------

# Choi and Okos (1986): a0 + a1 T + a2 T^2 for conductivity W/(m K), density kg/m3, heat J/(kg K).
# Water's heat capacity begins with 4176.2 (the often printed 4128.9 is a misprint).
WATER, PROTEIN, FAT, ASH = range(4)
K_POLY = np.array(
    [
        [0.57109, 1.7625e-3, -6.7036e-6],
        [0.17881, 1.1958e-3, -2.7178e-6],
        [0.18071, -2.7604e-4, -1.7749e-7],
        [0.32962, 1.4011e-3, -2.9069e-6],
    ]
)
RHO_POLY = np.array(
    [
        [997.18, 3.1439e-3, -3.7574e-3],
        [1329.9, -0.5184, 0.0],
        [925.59, -0.41757, 0.0],
        [2423.8, -0.28063, 0.0],
    ]
)
C_POLY = np.array(
    [
        [4176.2, -0.090864, 5.4731e-3],
        [2008.2, 1.2089, -1.3129e-3],
        [1984.2, 1.4733, -4.8008e-3],
        [1092.6, 1.8896, -3.6817e-3],
    ]
)
FRACTION = np.array([0.72, 0.215, 0.055, 0.010])  # lean raw tenderloin, kg per kg
PROPERTY_MAX_C = 150.0  # properties are read at no more than this

# Juice: water-holding sigmoid (after van der Sman 2007) and first-order release (as in Oillic
# 2011); the numbers are the model's own judgement.
HOLD_DROP, HOLD_C, HOLD_K = 0.22, 65.6, 4.0
JUICE_TAU_S, TO_SURFACE = 1200.0, 0.8

# Surface: air, vapour (Lewis relation), crust. r_v and r_t are the model's own calibration.
PRESSURE_PA, SIGMA, KELVIN = 101325.0, 5.670374e-8, 273.15
VAPOUR_PER_H = 0.622 / (1020.0 * 0.897 * PRESSURE_PA)  # g = this * h
CRUST_WATER = 700.0  # kg/m3 removable water, c_w
CRUST_VAPOUR = 2.4e7  # r_v, Pa s m4/kg2
CRUST_HEAT = 0.00714  # r_t, m4 K/(W kg)
CRUST_WATER_HEAT = 4180.0  # J/(kg K) taken off where the crust is dry
CAPACITY_FLOOR = 0.15 * 3500.0  # J/(kg K) always left to a cell

# Pan contact: judgement.
CONTACT_VAPOUR = 2.0e6  # Pa s m2/kg


def poly(a, t):
    return a[0] + t * (a[1] + t * a[2])


DENSITY = 1.0 / sum(x / poly(a, 20.0) for x, a in zip(FRACTION, RHO_POLY))  # 1052.5 kg/m3


def conductivity(t, m):
    """k of meat that now holds m kg of water per kg raw; volume-weighted. Scalars or arrays."""
    t = np.minimum(t, PROPERTY_MAX_C)
    volume = conducted = 0.0
    for i in range(4):
        v = (m if i == WATER else FRACTION[i]) / poly(RHO_POLY[i], t)
        volume = volume + v
        conducted = conducted + v * poly(K_POLY[i], t)
    return conducted / volume


DRY_C = FRACTION[1:] @ C_POLY[1:]


def heat_capacity(t, m):
    """J per K per kg of RAW meat."""
    t = np.minimum(t, PROPERTY_MAX_C)
    return m * poly(C_POLY[WATER], t) + poly(DRY_C, t)


def water_held(t):
    return FRACTION[WATER] - HOLD_DROP / (1.0 + np.exp(-(t - HOLD_C) / HOLD_K))


def water_held_slope(t):
    s = 1.0 / (1.0 + np.exp(-(t - HOLD_C) / HOLD_K))
    return -HOLD_DROP * s * (1.0 - s) / HOLD_K


def saturation(t):
    """Saturation pressure (Buck 1981), Pa, and its slope, Pa/K (scalars)."""
    b = 257.14 + t
    p = 611.21 * math.exp((18.678 - t / 234.5) * t / b)
    return p, p * ((18.678 - 2.0 * t / 234.5) / b - (18.678 - t / 234.5) * t / (b * b))


def humidity(vapour_pa):
    return 0.622 * vapour_pa / (PRESSURE_PA - vapour_pa)


def vapour_pressure(y):
    return PRESSURE_PA * y / (0.622 + y)


# --- surroundings ---------------------------------------------------------------------------------

# A stage is a plain dictionary; it goes into the table as it stands, so that every input is there.
# kind       air | contact | bath | fixed
# until      {"seconds": s} or {"axisC": T}
# box        present when the vapour pressure is the oven's own: vent, air mass, room, length


def air(name, c, h, view, vapour_pa, until, wall_c=None):
    return {
        "name": name,
        "kind": "air",
        "airC": c,
        "wallC": c if wall_c is None else wall_c,
        "hWPerM2K": h,
        "emissivityTimesView": view,
        "vapourPa": vapour_pa,
        "until": until,
    }


def oven(name, set_c, h, vent, length_m, until):
    """A preheated oven, door opened at loading; humidity starts from the room's."""
    return {
        "name": name,
        "kind": "air",
        "airC": set_c,
        "wallC": set_c,
        "door": {"airDropK": 30.0, "airSeconds": 180.0, "wallDropK": 10.0, "wallSeconds": 300.0},
        "hWPerM2K": h,
        "emissivityTimesView": 0.90,
        "box": {
            "ventKgPerS": vent,
            "airMassKg": 0.04,
            "roomVapourPa": 1300.0,
            "startVapourPa": 1300.0,
            "equivalentLengthM": length_m,
        },
        "until": until,
    }


def minutes(x):
    return {"seconds": 60.0 * x}


def tented(x):
    return air("rest, tented", 22.0, 3.0, 0.25, 5000.0, minutes(x))


def rolled_sear(faces=4, face_s=90.0, kappa=0.85, pan_c=230.0):
    """The three parts a typical sector sees while the roast is rolled through its faces."""
    wait = (faces - 1) / 2 * face_s

    def off_pan(name, seconds):
        return air(name, 50.0, 8.0, 0.90, 2000.0, {"seconds": seconds}, wall_c=60.0)

    contact = {
        "name": "sear, contact",
        "kind": "contact",
        "panC": pan_c,
        "contactHWPerM2K": 300.0,
        "until": {"seconds": kappa * face_s},
    }
    after = wait + (1.0 - kappa) * face_s
    return [off_pan("sear, before contact", wait), contact, off_pan("sear, after contact", after)]


TEMPER = air("temper", 21.0, 5.0, 0.90, 1250.0, minutes(30))

CASES = [
    {
        "id": "A",
        "title": "constant properties, convection alone: the reference against the Bessel series",
        "radiusM": 0.040,
        "startC": 4.0,
        "constant": {"kWPerMK": 0.5, "rhoCJPerM3K": 1052.5 * 3560.0},
        "stages": [
            {
                "name": "convection",
                "kind": "fixed",
                "airC": 218.0,
                "hWPerM2K": 25.0,
                "until": minutes(60),
            }
        ],
    },
    {
        "id": "B",
        "title": "temper, static oven at 230 C to 52 C on the axis, tented rest",
        "radiusM": 0.0395,
        "startC": 4.0,
        "stages": [
            TEMPER,
            oven("oven", 230.0, 8.0, 7.0e-4, 0.45, {"axisC": 52.0}),
            tented(30),
        ],
    },
    {
        "id": "C",
        "title": "static oven at 218.3 C to 57.2 C on the axis, tented rest",
        "radiusM": 0.034,
        "startC": 4.0,
        "stages": [oven("oven", 218.3, 8.0, 7.0e-4, 0.31, {"axisC": 57.2}), tented(20)],
    },
    {
        "id": "D",
        "title": "static oven at 107 C to 51.7 C on the axis, open rest",
        "radiusM": 0.034,
        "startC": 4.0,
        "stages": [
            oven("oven", 107.0, 8.0, 7.0e-4, 0.31, {"axisC": 51.7}),
            air("rest, open", 22.0, 6.0, 0.90, 1300.0, minutes(15)),
        ],
    },
    {
        "id": "E",
        "title": "rolled sear, fan oven at 160 C to 50 C on the axis, tented rest",
        "radiusM": 0.0395,
        "startC": 4.0,
        "stages": [
            *rolled_sear(),
            oven("oven, fan", 160.0, 18.0, 1.05e-3, 0.45, {"axisC": 50.0}),
            tented(20),
        ],
    },
    {
        "id": "F",
        "title": "water bath at 58 C to 57.5 C on the axis",
        "radiusM": 0.034,
        "startC": 4.0,
        "stages": [
            {
                "name": "water bath",
                "kind": "bath",
                "airC": 58.0,
                "hWPerM2K": 500.0,
                "until": {"axisC": 57.5},
            }
        ],
    },
]


# --- mesh -----------------------------------------------------------------------------------------


class Mesh:
    """Cell-centred volumes per metre of length, finer towards the surface."""

    def __init__(self, radius, cells, grading):
        self.radius, self.cells = radius, cells
        self.face = radius * (1.0 - (1.0 - np.arange(cells + 1) / cells) ** grading)
        self.centre = 0.5 * (self.face[1:] + self.face[:-1])
        self.volume = math.pi * np.diff(self.face**2)
        self.side = 2.0 * math.pi * radius
        self.coupling = 2.0 * math.pi * self.face[1:-1] / np.diff(self.centre)
        self.half = radius - self.centre[-1]
        # Weights that read T at r = 0 (even quartic through three cells) and at R/2 (cubic
        # through four cells): the axis and R/2 lie on no cell centre.
        self.axis_at = np.arange(3)
        self.axis_w = lagrange(self.centre[:3] ** 2, 0.0)
        j = int(np.searchsorted(self.centre, radius / 2.0))
        self.mid_at = np.arange(j - 2, j + 2)
        self.mid_w = lagrange(self.centre[self.mid_at], radius / 2.0)

    def axis(self, t):
        return self.axis_w @ t[self.axis_at]

    def mid(self, t):
        return self.mid_w @ t[self.mid_at]

    def crust_volume(self, depth):
        """Part of each cell that lies within `depth` of the surface."""
        inner = np.clip(self.radius - depth, self.face[:-1], self.face[1:])
        return math.pi * (self.face[1:] ** 2 - inner**2)


def lagrange(nodes, x):
    w = np.ones(len(nodes))
    for i, a in enumerate(nodes):
        for j, b in enumerate(nodes):
            if i != j:
                w[i] *= (x - b) / (a - b)
    return w


# --- surface balance ------------------------------------------------------------------------------


def outside(stage, t):
    """Air and wall temperature at time t of the stage."""
    air_c, wall_c = stage["airC"], stage.get("wallC", stage["airC"])
    door = stage.get("door")
    if door:
        air_c -= door["airDropK"] * math.exp(-t / door["airSeconds"])
        wall_c -= door["wallDropK"] * math.exp(-t / door["wallSeconds"])
    return air_c, wall_c


def surface_law(stage, t, front, deficit, vapour_pa):
    """q_m (W/m2) into the meat, its slope in the front's temperature, E (kg/(m2 s)), T_x."""
    if stage["kind"] == "contact":
        h = 1.0 / (1.0 / stage["contactHWPerM2K"] + CRUST_HEAT * deficit)
        q_in, q_slope = h * (stage["panC"] - front), -h
        crust_side = front + q_in * CRUST_HEAT * deficit
        p, p_slope = saturation(front)
        resistance = CONTACT_VAPOUR + CRUST_VAPOUR * deficit
        boils = p > PRESSURE_PA
        evaporation = (p - PRESSURE_PA) / resistance if boils else 0.0
        e_slope = p_slope / resistance if boils else 0.0
    else:
        air_c, wall_c = outside(stage, t)
        h, view = stage["hWPerM2K"], stage.get("emissivityTimesView", 0.0) * SIGMA
        wall4, r = (wall_c + KELVIN) ** 4, CRUST_HEAT * deficit
        # T_x: r (gain of the crust's outside) = T_x - T_f; falling against rising, so one root.
        x = front
        if r > 0.0:
            for _ in range(50):
                kelvin = x + KELVIN
                gain = h * (air_c - x) + view * (wall4 - kelvin**4)
                step = (r * gain - x + front) / (1.0 + r * (h + 4.0 * view * kelvin**3))
                x += step
                if abs(step) < 1e-12 * (1.0 + abs(x)):
                    break
        crust_side = x
        film = h + 4.0 * view * (x + KELVIN) ** 3
        q_in = h * (air_c - x) + view * (wall4 - (x + KELVIN) ** 4)
        q_slope = -film / (1.0 + r * film)
        if stage["kind"] == "air":
            p, p_slope = saturation(front)
            resistance = 1.0 / (VAPOUR_PER_H * h) + CRUST_VAPOUR * deficit
            evaporation, e_slope = (p - vapour_pa) / resistance, p_slope / resistance
        else:
            evaporation = e_slope = 0.0
    latent = 2.501e6 - 2381.0 * front
    q_m = q_in - latent * evaporation
    return q_m, q_slope - latent * e_slope + 2381.0 * evaporation, evaporation, crust_side


def solve_front(stage, t, inner_c, inner_m, half, deficit, vapour_pa, constant_k):
    """The front has no capacity: what the outermost half cell conducts equals q_m."""

    def residual(front):
        k = constant_k or k_scalar(0.5 * (front + inner_c), inner_m)
        q_m, slope, e, x = surface_law(stage, t, front, deficit, vapour_pa)
        conducted = k * (front - inner_c) / half
        return conducted - q_m, k / half - slope, conducted, e, x

    front = inner_c
    for _ in range(60):
        gap, slope, conducted, e, x = residual(front)
        step = gap / slope
        front -= max(-20.0, min(20.0, step))
        if abs(step) < 1e-11 * (1.0 + abs(front)):
            break
    else:
        raise RuntimeError("the surface balance did not converge")
    _, _, conducted, e, x = residual(front)
    return front, conducted, e, x


def k_scalar(t, m):
    """`conductivity` for plain floats, which is much faster than arrays of one."""
    t = min(t, PROPERTY_MAX_C)
    volume = conducted = 0.0
    for i in range(4):
        r, k = RHO_LIST[i], K_LIST[i]
        v = (m if i == WATER else FRACTION_LIST[i]) / (r[0] + t * (r[1] + t * r[2]))
        volume += v
        conducted += v * (k[0] + t * (k[1] + t * k[2]))
    return conducted / volume


RHO_LIST, K_LIST, FRACTION_LIST = RHO_POLY.tolist(), K_POLY.tolist(), FRACTION.tolist()


# --- the system of equations ----------------------------------------------------------------------


class Line:
    """State: T of n cells, m of n cells, W, Y, evaporated and dripped kg/m2 of side."""

    def __init__(self, mesh, stage, constant):
        self.mesh, self.stage, self.constant = mesh, stage, constant
        self.n = mesh.cells
        self.box = stage.get("box")
        # How the deficit moves: "open" dW/dt = E - S; "full" W = 0 and the surplus drips;
        # "still" W unchanged (bath, constant case).
        self.mode = "open"
        self.pattern = self._pattern()

    def start_mode(self, t, y):
        if self.stage["kind"] in ("bath", "fixed"):
            return "still"
        if y[2 * self.n] > 0.0:
            return "open"
        return "open" if self.surplus(t, y) > 0.0 else "full"

    def vapour(self, y):
        if self.box:
            return vapour_pressure(y[2 * self.n + 1])
        return self.stage.get("vapourPa", 0.0)

    def release(self, y):
        """-dm/dt of every cell, 1/s."""
        n = self.n
        if self.constant:
            return np.zeros(n)
        return np.maximum(0.0, y[n : 2 * n] - water_held(y[:n])) / JUICE_TAU_S

    def expelled(self, release):
        """Juice leaving the cells, kg per m2 of side and second."""
        return DENSITY * (self.mesh.volume @ release) / self.mesh.side

    def surface(self, t, y):
        n, deficit = self.n, max(0.0, y[2 * self.n])
        constant_k = self.constant["kWPerMK"] if self.constant else None
        return solve_front(
            self.stage,
            t,
            float(y[n - 1]),
            float(y[2 * n - 1]),
            self.mesh.half,
            float(deficit),
            float(self.vapour(y)),
            constant_k,
        )

    def surplus(self, t, y):
        """E - S: positive when the surface dries."""
        return self.surface(t, y)[2] - TO_SURFACE * self.expelled(self.release(y))

    def rhs(self, t, y, juice=None):
        """dy/dt. `juice` freezes the expelled flow, for the Jacobian's sparse part."""
        n, mesh = self.n, self.mesh
        temp, water, deficit = y[:n], y[n : 2 * n], max(0.0, y[2 * n])
        if self.constant:
            k = np.full(n, self.constant["kWPerMK"])
            capacity = self.constant["rhoCJPerM3K"] * mesh.volume
        else:
            k = conductivity(temp, water)
            capacity = DENSITY * heat_capacity(temp, water) * mesh.volume
            if deficit > 0.0:
                dry = mesh.crust_volume(deficit / CRUST_WATER)
                capacity = capacity - CRUST_WATER * CRUST_WATER_HEAT * dry
                capacity = np.maximum(capacity, CAPACITY_FLOOR * DENSITY * mesh.volume)
        outward = -mesh.coupling * 0.5 * (k[1:] + k[:-1]) * np.diff(temp)
        _, q_m, evaporation, _ = self.surface(t, y)
        heat = np.zeros(n)
        heat[:-1] -= outward
        heat[1:] += outward
        heat[-1] += mesh.side * q_m
        release = self.release(y)
        if juice is None:
            juice = self.expelled(release)
        out = np.empty_like(y)
        out[:n] = heat / capacity
        out[n : 2 * n] = -release
        surplus = evaporation - TO_SURFACE * juice
        out[2 * n] = surplus if self.mode == "open" else 0.0
        out[2 * n + 1] = 0.0
        if self.box:
            b = self.box
            vented = b["ventKgPerS"] * (y[2 * n + 1] - humidity(b["roomVapourPa"]))
            moist = evaporation * mesh.side * b["equivalentLengthM"]
            out[2 * n + 1] = (moist - vented) / b["airMassKg"]
        out[2 * n + 2] = evaporation
        drip = (1.0 - TO_SURFACE) * juice
        if self.mode == "full":
            drip -= surplus
        elif self.mode == "still":
            drip += TO_SURFACE * juice
        out[2 * n + 3] = drip
        return out

    def _pattern(self):
        """Columns that may be perturbed together, and the rows each column reaches."""
        n, groups = self.n, []
        tail = [2 * n, 2 * n + 1, 2 * n + 2, 2 * n + 3]
        for offset in (0, n):
            for first in range(3):
                group = []
                for i in range(first, n, 3):
                    rows = [j for j in (i - 1, i, i + 1) if 0 <= j < n] + [n + i]
                    group.append((offset + i, rows + (tail if i == n - 1 else [])))
                groups.append(group)
        everywhere = list(range(n)) + tail
        groups += [[(2 * n, everywhere)], [(2 * n + 1, [n - 1] + tail)]]
        flat = []
        for group in groups:
            cols = np.array([c for c, rows in group for _ in rows])
            rows = np.array([r for _, rows in group for r in rows])
            flat.append((np.array([c for c, _ in group]), rows, cols))
        return flat

    def jacobian(self, t, y):
        """Differences for the banded part; the juice's dense rows in closed form."""
        n = self.n
        release = self.release(y)
        juice = self.expelled(release)
        base = self.rhs(t, y, juice)
        delta = 1e-7 * np.maximum(np.abs(y), 1.0)
        delta[2 * n : 2 * n + 2] = 1e-8
        rows_all, cols_all, values = [], [], []
        for columns, rows, cols in self.pattern:
            moved = y.copy()
            moved[columns] += delta[columns]
            change = self.rhs(t, moved, juice) - base
            rows_all.append(rows)
            cols_all.append(cols)
            values.append(change[rows] / delta[cols])
        if not self.constant:
            flow = (release > 0.0) * DENSITY * self.mesh.volume / (self.mesh.side * JUICE_TAU_S)
            by_state = np.concatenate([-flow * water_held_slope(y[:n]), flow])
            deficit_w = -TO_SURFACE if self.mode == "open" else 0.0
            drip_w = 1.0 - TO_SURFACE if self.mode == "open" else 1.0
            for row, weight in ((2 * n, deficit_w), (2 * n + 3, drip_w)):
                rows_all.append(np.full(2 * n, row))
                cols_all.append(np.arange(2 * n))
                values.append(weight * by_state)
        size = 2 * n + 4
        triple = (np.concatenate(rows_all), np.concatenate(cols_all))
        return coo_matrix((np.concatenate(values), triple), shape=(size, size)).tocsc()


# --- one stage, one case --------------------------------------------------------------------------

LIMIT_S = 8 * 3600.0  # an until-condition that takes longer is an error


def run_stage(line, y, numerics):
    """Integrate one stage. Returns the end time, the end state and its dense pieces."""
    n, until = line.n, line.stage["until"]
    target = until.get("axisC")
    end = until.get("seconds", LIMIT_S)

    def reached(_, s):
        return line.mesh.axis(s[:n]) - target

    def refilled(_, s):
        return s[2 * n]

    reached.terminal, reached.direction = True, 1
    refilled.terminal, refilled.direction = True, -1

    def dries(t, s):
        return line.surplus(t, s)

    dries.terminal, dries.direction = True, 1

    t, pieces, switches = 0.0, [], 0
    line.mode = line.start_mode(t, y)
    while True:
        events = {"open": [refilled], "full": [dries], "still": []}[line.mode]
        if target is not None:
            events = [*events, reached]
        run = solve_ivp(
            line.rhs,
            (t, end),
            y,
            method=numerics["method"],
            rtol=numerics["rtol"],
            atol=numerics["atol"],
            jac=line.jacobian,
            dense_output=True,
            events=events or None,
            first_step=1e-4,
        )
        if run.status < 0:
            raise RuntimeError(run.message)
        pieces.append((run.t[0], run.t[-1], run.sol))
        t, y = float(run.t[-1]), run.y[:, -1].copy()
        if run.status == 0:
            if target is not None:
                raise RuntimeError("the axis never reached its target")
            break
        if target is not None and len(run.t_events[-1]) > 0:
            break
        # The deficit has closed or opened: from here its equation is another one.
        y[2 * n] = max(0.0, y[2 * n])
        if line.mode == "open":
            y[2 * n], line.mode = 0.0, "full"
        else:
            line.mode = "open"
        switches += 1
        if switches > 50:
            raise RuntimeError("the deficit opens and closes without end")
    return t, y, pieces


def state_at(pieces, t):
    for start, stop, sol in pieces:
        if t <= stop:
            return sol(max(t, start))
    _, stop, sol = pieces[-1]
    return sol(stop)


def mean_water(line, y):
    v = line.mesh.volume
    return float(v @ y[line.n : 2 * line.n]) / float(v.sum())


def mass_gap(line, y):
    """Evaporated + dripped - expelled - change of the deficit, kg/m2: zero but for rounding."""
    n, mesh = line.n, line.mesh
    lost = FRACTION[WATER] - mean_water(line, y)
    expelled = DENSITY * float(mesh.volume.sum()) * lost / mesh.side
    return y[2 * n + 2] + y[2 * n + 3] - expelled - y[2 * n]


def record(line, t, clock, y):
    n, mesh = line.n, line.mesh
    front, _, _, crust_side = line.surface(t, y)
    row = {
        "secondsInStage": t,
        "seconds": clock + t,
        "axisC": mesh.axis(y[:n]),
        "halfRadiusC": mesh.mid(y[:n]),
        "frontC": front,
        "crustSideC": crust_side,
    }
    if not line.constant:
        row |= {
            "deficitKgPerM2": max(0.0, y[2 * n]),
            "evaporatedKgPerM2": y[2 * n + 2],
            "drippedKgPerM2": y[2 * n + 3],
            "meanWaterKgPerKgRaw": mean_water(line, y),
            "vapourPa": line.vapour(y) if line.stage["kind"] == "air" else None,
        }
    return {k: None if v is None else float(v) for k, v in row.items()}


def run_case(case, numerics):
    mesh = Mesh(case["radiusM"], numerics["cells"], numerics["grading"])
    n, constant = mesh.cells, case.get("constant")
    y = np.concatenate([np.full(n, case["startC"]), np.full(n, FRACTION[WATER]), np.zeros(4)])
    clock, out, imbalance = 0.0, [], 0.0
    pull = pull_c = peak = None  # the pull is the end of the last oven stage
    after = []
    for stage in case["stages"]:
        line = Line(mesh, stage, constant)
        if line.box:
            y[2 * n + 1] = humidity(line.box["startVapourPa"])
        end, y, pieces = run_stage(line, y, numerics)
        marks = [300.0 * i for i in range(1, int(end // 300.0) + 1) if 300.0 * i < end - 1e-6]
        rows = []
        for t in [*marks, end]:
            s = state_at(pieces, t)
            rows.append(record(line, t, clock, s))
            imbalance = max(imbalance, abs(mass_gap(line, s)))
        out.append({"name": stage["name"], "endSeconds": end, "records": rows})
        if "box" in stage:
            pull, after = clock + end, []
            pull_c = rows[-1]["axisC"]
        elif pull is not None:
            after.append((clock, end, pieces))
        clock += end
    if after:
        peak = find_peak(mesh, after, pull)
        peak["riseK"] = peak["axisC"] - pull_c
    return {"stages": out, "peak": peak, "imbalance": imbalance}


def find_peak(mesh, after, pull):
    """Highest axis temperature after the pull: golden section on the dense output."""
    best = None
    n = mesh.cells
    for clock, end, pieces in after:

        def minus_axis(t, pieces=pieces):
            return -mesh.axis(state_at(pieces, t)[:n])

        coarse = np.linspace(0.0, end, 241)
        values = [minus_axis(t) for t in coarse]
        i = int(np.argmin(values))
        bracket = (coarse[max(0, i - 1)], coarse[min(240, i + 1)])
        fine = minimize_scalar(
            minus_axis, bounds=bracket, method="bounded", options={"xatol": 1e-4}
        )
        found = {
            "axisC": float(-fine.fun),
            "secondsAfterPull": float(clock + fine.x - pull),
            "insideTheRest": bool(0 < i < 240),
        }
        if best is None or found["axisC"] > best["axisC"]:
            best = found
    return best


# --- closed form for case A -----------------------------------------------------------------------


def bessel_series(case, times, terms=60):
    """Axis, half-radius and surface temperature of a cylinder by the exact series."""
    radius, start = case["radiusM"], case["startC"]
    stage, constant = case["stages"][0], case["constant"]
    biot = stage["hWPerM2K"] * radius / constant["kWPerMK"]
    alpha = constant["kWPerMK"] / constant["rhoCJPerM3K"]
    j0_zeros = scipy.special.jn_zeros(0, terms)
    j1_zeros = np.concatenate([[0.0], scipy.special.jn_zeros(1, terms)])
    zeta = np.array(
        [
            brentq(lambda z: z * j1(z) - biot * j0(z), j1_zeros[i] + 1e-9, j0_zeros[i], xtol=1e-14)
            for i in range(terms)
        ]
    )
    weight = 2.0 / zeta * j1(zeta) / (j0(zeta) ** 2 + j1(zeta) ** 2)
    rows = []
    for t in times:
        decay = weight * np.exp(-(zeta**2) * alpha * t / radius**2)
        theta = [float(decay @ j0(zeta * x)) for x in (0.0, 0.5, 1.0)]
        values = [stage["airC"] + (start - stage["airC"]) * x for x in theta]
        rows.append(dict(zip(("axisC", "halfRadiusC", "frontC"), values)))
    return rows


# --- convergence and the table --------------------------------------------------------------------

# The table holds the finest run; the others say how far to trust it. Where the crust's edge crosses
# the mesh convergence is of first order (the capacity jumps there), so what one halving of the
# cells still changes is taken as the error left, not a third of it; or what another grading of the
# same number of cells changes, where that is more.
FINEST = {"cells": 800, "grading": 1.5, "method": "BDF", "rtol": 1e-8, "atol": 1e-8}
COARSER = {**FINEST, "cells": 400}
REGRADED = {**FINEST, "grading": 1.2}
COARSE = {**FINEST, "cells": 200}
TIGHTER = {**COARSE, "rtol": 1e-10, "atol": 1e-10}
OTHER = {**COARSE, "method": "Radau"}

DIGITS = {"secondsInStage": 3, "seconds": 3, "vapourPa": 2, "endSeconds": 3, "secondsAfterPull": 2}
PEAK_KEYS = ("axisC", "secondsAfterPull", "riseK")


def rounded(row):
    return {
        k: round(v, DIGITS.get(k, 6)) if isinstance(v, float) else v for k, v in row.items()
    }


def two_figures(x):
    return float(f"{x:.1e}")


def gaps(one, two):
    """Largest difference of each figure of two runs, stage by stage, and of their peaks."""
    stages = []
    for a, b in zip(one["stages"], two["stages"]):
        if len(a["records"]) != len(b["records"]):
            raise RuntimeError("the two runs differ in the number of records")
        worst = {"endSeconds": abs(a["endSeconds"] - b["endSeconds"])}
        for x, y in zip(a["records"], b["records"]):
            for key in x:
                if key not in ("secondsInStage", "seconds") and x[key] is not None:
                    worst[key] = max(worst.get(key, 0.0), abs(x[key] - y[key]))
        stages.append(worst)
    peak = None
    if one["peak"]:
        peak = {k: abs(one["peak"][k] - two["peak"][k]) for k in PEAK_KEYS}
    return stages, peak


def add_up(halved, regraded, time):
    """Estimated error: what the mesh still changes plus what the integrator still changes."""
    return {k: two_figures(max(halved[k], regraded[k]) + time[k]) for k in halved}


def biggest(stages):
    worst = {}
    for s in stages:
        for k, v in s.items():
            worst[k] = max(worst.get(k, 0.0), v)
    return {k: two_figures(v) for k, v in worst.items()}


def tabulate(case):
    best = run_case(case, FINEST)
    coarser, coarse = run_case(case, COARSER), run_case(case, COARSE)
    tighter, other = run_case(case, TIGHTER), run_case(case, OTHER)
    regraded = run_case(case, REGRADED)
    mesh, mesh_peak = gaps(best, coarser)
    grade, grade_peak = gaps(best, regraded)
    time, time_peak = gaps(coarse, tighter)
    stages = []
    for s, m, g, t in zip(best["stages"], mesh, grade, time):
        stages.append(
            {
                "name": s["name"],
                "endSeconds": round(s["endSeconds"], 3),
                "estimatedError": add_up(m, g, t),
                "records": [rounded(r) for r in s["records"]],
            }
        )
    result = {
        "id": case["id"],
        "title": case["title"],
        "inputs": {k: v for k, v in case.items() if k not in ("id", "title")},
        "stages": stages,
    }
    if best["peak"]:
        result["peak"] = {
            **rounded(best["peak"]),
            "estimatedError": add_up(mesh_peak, grade_peak, time_peak),
        }
    result["massGapKgPerM2"] = two_figures(best["imbalance"])
    result["convergence"] = {
        "cells200Against400": biggest(gaps(coarse, coarser)[0]),
        "cells400Against800": biggest(mesh),
        "grading1.5Against1.2At800Cells": biggest(grade),
        "tolerance1e-8Against1e-10At200Cells": biggest(time),
        "BDFAgainstRadauAt200Cells": biggest(gaps(coarse, other)[0]),
    }
    if case.get("constant"):
        rows = best["stages"][0]["records"]
        exact = bessel_series(case, [r["secondsInStage"] for r in rows])
        result["closedForm"] = {
            "method": "Bessel series of the infinite cylinder with convection, 60 terms",
            "records": [
                rounded({"secondsInStage": r["secondsInStage"], **e}) for r, e in zip(rows, exact)
            ],
            "worstDifference": {
                k: two_figures(max(abs(r[k] - e[k]) for r, e in zip(rows, exact)))
                for k in exact[0]
            },
        }
    return result


METHOD = [
    "One radial line: infinite cylinder of fixed radius, no exchange along the axis. At the start "
    "T is uniform, m = 0.72 in every cell, W = 0.",
    "Cell-centred finite volumes, faces at R (1 - (1 - i/n)^1.5), i = 0..n, n = 800; conduction "
    "through a face with the mean of the two cells' conductivities.",
    "The front (r = R) has no capacity: its temperature makes the flux through the outermost half "
    "cell, k at the mean of cell and front, equal to q_m; Newton to 1e-11. The crust's outside "
    "temperature is solved by Newton to 1e-12 inside it.",
    "States: T and juice water m of every cell, deficit W, oven humidity Y, evaporated and dripped "
    "kg per m2 of side. Integrated together by SciPy solve_ivp, BDF, rtol = atol = 1e-8, "
    "differenced sparse Jacobian. Each stage starts anew.",
    "Clamp of W: at W = 0 with E < S the deficit is held at 0 and the surplus drips; events "
    "switch to dW/dt = E - S when E - S turns positive, and back when W returns to 0.",
    "The oven's humidity is integrated as the differential equation, m_E = E 2 pi R L_eq; "
    "it starts from the room's at loading.",
    "Properties of a cell are read at its T (at most 150 C) and m: volume fractions with the water "
    "fraction replaced by m; c in J per K per kg of raw meat; mass rho V, rho at 20 C constant.",
    "Dry crust: c_w 4180 J/(kg K) taken off over the part of the cell within W/c_w of the surface; "
    "at least 0.15 rho 3500 V stays, cell by cell.",
    "Axis: even quartic through the three innermost cells. Half radius: cubic through four cells.",
    "Peak: golden section with parabolic steps (minimize_scalar, bounded) on the dense output of "
    "the stages after the pull.",
    "Front and crust side at a stage's end are those under the stage that ends.",
    "Drip is per m2 of side as well; condensate that runs off counts as drip.",
]

ERROR_NOTE = (
    "estimatedError of a figure is the largest difference, over the stage's records, between 800 "
    "and 400 cells, or between gradings 1.5 and 1.2 where that is more, plus that "
    "between tolerances 1e-8 and 1e-10 at 200 cells; figures are rounded to six decimals "
    "(seconds three, pascals and the peak's time two). It covers the numerical "
    "solution of the stated equations, not how well they describe meat."
)

CONSTANTS = {
    "massFractions": dict(zip(("water", "protein", "fat", "ash"), FRACTION.tolist())),
    "waterHeatCapacityPolynomial": C_POLY[WATER].tolist(),
    "densityKgPerM3": DENSITY,
    "propertyMaxC": PROPERTY_MAX_C,
    "juice": {
        "drop": HOLD_DROP,
        "middleC": HOLD_C,
        "widthK": HOLD_K,
        "tauSeconds": JUICE_TAU_S,
        "shareToSurface": TO_SURFACE,
    },
    "crust": {
        "removableWaterKgPerM3": CRUST_WATER,
        "vapourResistancePaSM4PerKg2": CRUST_VAPOUR,
        "heatResistanceM4KPerWKg": CRUST_HEAT,
        "waterHeatJPerKgK": CRUST_WATER_HEAT,
        "capacityFloorJPerKgK": CAPACITY_FLOOR,
    },
    "vapourTransferPerH": VAPOUR_PER_H,
    "contactVapourResistancePaSM2PerKg": CONTACT_VAPOUR,
    "pressurePa": PRESSURE_PA,
}


def table():
    return {
        "topic": "One radial line of the roast model, solved independently",
        "kind": "other program",
        "program": {
            "name": "SciPy solve_ivp",
            "scipy": scipy.__version__,
            "numpy": np.__version__,
            "python": ".".join(map(str, sys.version_info[:3])),
            "script": "tests/published/reference-lines.py",
            **FINEST,
        },
        "units": "degrees Celsius, s, kg, m, Pa; deficit, evaporated and dripped kg per m2 of side",
        "method": METHOD,
        "errors": ERROR_NOTE,
        "constants": CONSTANTS,
        "cases": [tabulate(case) for case in CASES],
    }


def summary(case, result):
    print(f"{case['id']}  {case['title']}")
    for s in result["stages"]:
        last = ", ".join(
            f"{k} {v:.4f}" for k, v in s["records"][-1].items() if isinstance(v, float)
        )
        print(f"   {s['name']}: end {s['endSeconds']:.2f} s; {last}")
    if result["peak"]:
        print(f"   peak {result['peak']}")


def main():
    parser = argparse.ArgumentParser(description="reference solution of one radial line")
    parser.add_argument("--cells", type=int, help="one quick run with this many cells, no table")
    parser.add_argument("--case", help="letters of the cases of a quick run, such as BD")
    options = parser.parse_args()
    if options.cells or options.case:
        numerics = {**FINEST, "cells": options.cells or 200}
        for case in CASES:
            if not options.case or case["id"] in options.case:
                summary(case, run_case(case, numerics))
        return
    root = pathlib.Path(__file__).resolve().parents[2]
    target = root / "data" / "published" / "reference-lines.json"
    target.write_text(json.dumps(table(), indent=2) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
