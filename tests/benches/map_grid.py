"""The window map of the demo unit's bench knife as a plain grid, judged by NumPy in one go.

What it computes: the unit of demo-units/fairway-trailed.ron on level ground, reel diameters from
scrap size to new in 49 rows (the rows of the map), attitudes from -5 to 20 degrees in 50 columns of
cells (the cells the map searches, so 51 places to a row). At every place of the grid it works out
behind centre, sweep below the cut, the reel's clearance, and the clearance of every point of the
underside, and judges them by the starting limits: the sweep no more than 10 % of the height of cut,
reel and edge out of the ground, the underside clear by 0.5 mm, the edge no more than 1 mm ahead of
centre. The sums are those of the sliding reel with nothing ground and nothing extended, in closed
form.

What it does not: it solves no border. A border is known only to the width of a cell, half a degree,
where the map of the program has it solved to 1e-9 degrees. For as fine a border from a grid alone
it would take 25 000 million columns. The last line says how the time goes with finer columns.

Run by hand, with numpy installed:  python3 tests/benches/map_grid.py
The program's own figure is that of `cargo bench --bench speed -- "map of a knife"`.
"""

import time

import numpy as np

INCH = 25.4
ROWS, CELLS = 49, 50
LEAST_DEG, MOST_DEG = -5.0, 20.0

# The demo unit, in millimetres and radians.
NEW, SCRAP = 7.0 * INCH, 6.5 * INCH
BENCH_RADIUS, HEIGHT, BENCH_ATTITUDE, BEHIND = 3.45 * INCH, 0.5 * INCH, np.radians(4.0), 0.3 * INCH
# The underside from the edge, behind along the datum and below it: lip front and back, body front
# and back, screw heads, lower lug.
BACK = np.array([0.0, 0.5, 0.5, 2.5, 1.5, 2.6]) * INCH
BELOW = np.array([0.12, 0.12, 0.25, 0.25, 0.3, 0.35]) * INCH
SWEEP_OVER, UNDERSIDE, AHEAD = 0.10, 0.5, 1.0


def judged(columns):
    """Which limits hold on the grid: sweep, reel, underside, ahead."""
    diameter = np.linspace(SCRAP, NEW, ROWS)[:, None]
    attitude = np.radians(np.linspace(LEAST_DEG, MOST_DEG, columns + 1))[None, :]
    radius = diameter / 2.0
    # The centre slides on the bench line from the edge, at the reel's radius from it (no gap).
    bench_lean = np.arcsin(BEHIND / BENCH_RADIUS)
    lean = bench_lean + (attitude - BENCH_ATTITUDE)
    behind = radius * np.sin(lean)
    sweep = radius - radius * np.cos(lean)
    reel = HEIGHT - sweep
    # One clearance for every point of the underside, then the lowest of them.
    points = (
        HEIGHT
        + BACK[:, None] * np.sin(attitude)
        - BELOW[:, None] * np.cos(attitude)
    )
    underside = np.broadcast_to(points.min(axis=0), sweep.shape)
    return np.stack(
        [
            sweep <= SWEEP_OVER * HEIGHT,
            reel >= 0.0,
            underside >= UNDERSIDE,
            behind + AHEAD >= 0.0,
        ]
    )


def seconds(columns, times):
    """The median time of one grid."""
    taken = []
    for _ in range(times):
        begun = time.perf_counter()
        judged(columns)
        taken.append(time.perf_counter() - begun)
    return float(np.median(taken))


def main():
    holds = judged(CELLS).all(axis=0)
    attitude = np.linspace(LEAST_DEG, MOST_DEG, CELLS + 1)
    for row, name in ((0, "scrap"), (ROWS - 1, "new")):
        within = attitude[holds[row]]
        print(f"reel {name}: holds from {within.min():.1f} to {within.max():.1f} degrees")
    for columns, times in ((CELLS, 2000), (100 * CELLS, 50)):
        taken = seconds(columns, times) * 1e3
        print(f"{ROWS} rows of {columns} cells: {taken:.3f} ms")


if __name__ == "__main__":
    main()
