//! Laws of the march: weight along the vertical, closed forms of straight hole and bends, one friction for all motion.

use super::*;
use crate::trajectory::Path;
use crate::{Line, Off, Working};

const UP: StringMotion = StringMotion { axial_speed: 0.5, rotary_speed: 0.0 };
const DOWN: StringMotion = StringMotion { axial_speed: -0.5, rotary_speed: 0.0 };
const TURNING: StringMotion = StringMotion { axial_speed: 0.0, rotary_speed: 12.0 };

/// Kick-off, build with turn, hold, drop.
fn winding() -> Path {
    let stations: [(f64, f64, f64); 6] = [
        (0.0, 0.0, 0.0),
        (500.0, 0.0, 0.0),
        (1100.0, 45.0, 30.0),
        (1500.0, 60.0, 75.0),
        (2600.0, 60.0, 75.0),
        (3000.0, 35.0, 80.0),
    ];
    let radians: Vec<_> = stations.iter().map(|(d, i, a)| (*d, i.to_radians(), a.to_radians())).collect();
    Path::from_stations(&radians).unwrap()
}

const STRING: [StringPiece; 3] = [
    StringPiece { length: 180.0, buoyed_weight: 1750.0, radius: 0.1016, ..StringPiece::SOFT },
    StringPiece { length: 95.5, buoyed_weight: 610.0, radius: 0.0841, ..StringPiece::SOFT },
    StringPiece { length: f64::INFINITY, buoyed_weight: 272.0, radius: 0.0841, ..StringPiece::SOFT },
];

fn surface(grid: &DragGrid, pieces: &[StringPiece], bit_depth: f64, motion: StringMotion) -> DragNode {
    grid.march(&Hanging { pieces, bit_depth, motion, bit: BitLoad::default() }, &mut Vec::new(), &mut Off)
}

/// An arc in the vertical plane with the string on one side of it all along.
fn arc(radius: f64, from: f64, to: f64, step: f64, friction: f64) -> DragGrid {
    let path =
        Path::from_stations(&[(0.0, from.to_radians(), 0.0), (radius * (to - from).abs().to_radians(), to.to_radians(), 0.0)]);
    let path = path.unwrap();
    let bottom = path.stations().last().unwrap().depth;
    DragGrid::new(&path, bottom, step, &[(bottom, friction)])
}

fn end_tension(grid: &DragGrid, weight: f64, tension: f64, motion: StringMotion) -> f64 {
    let pieces = [StringPiece { length: f64::INFINITY, buoyed_weight: weight, radius: 0.084, ..StringPiece::SOFT }];
    let bit = BitLoad { weight: -tension, torque: 0.0 };
    let hanging = Hanging { pieces: &pieces, bit_depth: grid.bottom(), motion, bit };
    grid.march(&hanging, &mut Vec::new(), &mut Off).effective_tension
}

/// Without friction the string weighs its buoyed weight along the vertical, whatever the path, grid and bit depth.
#[test]
fn law_no_friction_weighs_the_vertical() {
    let path = winding();
    for step in [500.0, 30.0, 7.3] {
        let grid = DragGrid::new(&path, 3000.0, step, &[]);
        for bit_depth in [3000.0, 2987.65, 1777.7, 600.0, 150.0, 30.0] {
            let (mut expected, mut lower) = (0.0, bit_depth);
            for piece in STRING {
                let upper = (lower - piece.length).max(0.0);
                expected += piece.buoyed_weight * (path.vertical_depth_at(lower) - path.vertical_depth_at(upper));
                lower = upper;
            }
            for motion in [UP, DOWN, TURNING] {
                let tension = surface(&grid, &STRING, bit_depth, motion).effective_tension;
                assert!((tension - expected).abs() < 1e-9 * expected, "{step} {bit_depth}: {tension} {expected}");
            }
        }
    }
}

/// Straight inclined hole: F = w L (cos α ± μ sin α), torque = μ r w L sin α.
#[test]
fn law_straight_hole() {
    let (inclination, length, friction) = (60f64.to_radians(), 900.0, 0.25);
    let path = Path::from_stations(&[(0.0, inclination, 1.0)]).unwrap();
    let grid = DragGrid::new(&path, length, 30.0, &[(length, friction)]);
    let pieces = [StringPiece { length: 900.0, buoyed_weight: 248.0, radius: 0.084, ..StringPiece::SOFT }];
    let weight = 248.0 * length;
    for (motion, sign) in [(UP, 1.0), (DOWN, -1.0), (TURNING, 0.0)] {
        let node = surface(&grid, &pieces, length, motion);
        let expected = weight * (inclination.cos() + sign * friction * inclination.sin());
        assert!((node.effective_tension / expected - 1.0).abs() < 1e-12);
        let turning = if sign == 0.0 { friction * 0.084 * weight * inclination.sin() } else { 0.0 };
        assert!((node.torque - turning).abs() < 1e-9 * weight);
    }
}

/// Weightless pipe round a bend is a rope on a post.
#[test]
fn law_weightless_pipe_is_a_capstan() {
    let grid = arc(400.0, 0.0, 90.0, 10.0, 0.3);
    let expected = 2e5 * (0.3 * 90f64.to_radians()).exp();
    let tension = end_tension(&grid, 0.0, 2e5, UP);
    assert!((tension / expected - 1.0).abs() < 1e-5, "{tension} {expected}");
    let slack = end_tension(&grid, 0.0, 2e5, DOWN);
    assert!((tension * slack / 4e10 - 1.0).abs() < 1e-5);
    // A coarse march errs more, and half the step leaves a quarter of the error.
    let error = |step: f64| end_tension(&arc(400.0, 0.0, 90.0, step, 0.3), 0.0, 2e5, UP) / expected - 1.0;
    let (coarse, fine) = (error(80.0), error(40.0));
    assert!((3.2..4.8).contains(&(coarse / fine)) && fine.abs() < 1e-3, "{coarse} {fine}");
}

/// In-plane build with the string on the high side, after Aadnoy & Andersen, J. Petroleum Science & Engineering 32
/// (2001) 53 (from memory), re-derived: the side force is F/R - w sin α, so that dF/dα = -μ F - wR (cos α - μ sin α).
/// In a drop it is F/R + w sin α and inclination grows upwards: dF/dα = μ F + wR (cos α + μ sin α).
fn closed_form(build: bool, mu: f64, weight_radius: f64, tension: f64, angles: [f64; 2]) -> f64 {
    let [deep, shallow] = angles.map(f64::to_radians);
    let sign = if build { -1.0 } else { 1.0 };
    let particular = |a: f64| weight_radius * (sign * (1.0 - mu * mu) * a.sin() - 2.0 * mu * a.cos()) / (1.0 + mu * mu);
    (tension - particular(deep)) * (mu * (deep - shallow).abs()).exp() + particular(shallow)
}

#[test]
fn law_closed_forms_of_bends_and_second_order() {
    let (radius, weight, tension) = (870.0, 248.0, 5e5);
    for build in [true, false] {
        let (deep, shallow) = if build { (60.0, 5.0) } else { (5.0, 60.0) };
        for (motion, mu) in [(UP, 0.25), (DOWN, -0.25)] {
            let expected = closed_form(build, mu, weight * radius, tension, [deep, shallow]);
            let error = |step: f64| {
                let grid = arc(radius, shallow, deep, step, 0.25);
                end_tension(&grid, weight, tension, motion) / expected - 1.0
            };
            let (coarse, fine, finest) = (error(20.0).abs(), error(10.0).abs(), error(2.0).abs());
            assert!(coarse < 1e-5, "build {build}, μ {mu}: {coarse}");
            assert!(finest < 1e-7);
            assert!((3.2..4.8).contains(&(coarse / fine)), "half the step leaves a quarter of the error: {coarse} {fine}");
        }
    }
}

/// Friction only redistributes: along and around together it is one friction, and turning relieves the drag.
#[test]
fn law_motion_shares_one_friction() {
    let path = winding();
    let grid = DragGrid::new(&path, 3000.0, 30.0, &[(1500.0, 0.2), (3000.0, 0.3)]);
    let still = surface(&grid, &STRING, 3000.0, StringMotion::default());
    let turning = surface(&grid, &STRING, 3000.0, TURNING);
    let (up, down) = (surface(&grid, &STRING, 3000.0, UP), surface(&grid, &STRING, 3000.0, DOWN));
    assert!(still.torque.abs() < 1e-12);
    assert!((still.effective_tension - turning.effective_tension).abs() < 1e-6, "turning without moving has no drag");
    assert!(up.effective_tension > turning.effective_tension && turning.effective_tension > down.effective_tension);
    assert!(up.torque.abs() < 1e-9 && down.torque.abs() < 1e-9);
    let reaming = surface(&grid, &STRING, 3000.0, StringMotion { axial_speed: 0.5, rotary_speed: 12.0 });
    assert!(reaming.effective_tension > turning.effective_tension && reaming.effective_tension < up.effective_tension);
    assert!(reaming.torque > 0.0 && reaming.torque < 1.2 * turning.torque);
    let share = AxialFriction { friction_factor: 0.3, axial_speed: 0.5, rotary_speed: 12.0, radius: 0.08 }.value();
    let rest = TurningFriction { friction_factor: 0.3, axial_speed: 0.5, rotary_speed: 12.0, radius: 0.08 }.value();
    assert!((share.hypot(rest) - 0.3).abs() < 1e-15);
}

/// A bit between grid depths gives what a grid that ends there gives.
#[test]
fn law_bit_depth_need_not_be_on_the_grid() {
    let path = winding();
    let friction = [(1800.0, 0.2), (3000.0, 0.3)];
    let whole = DragGrid::new(&path, 3000.0, 10.0, &friction);
    for bit_depth in [2995.0, 2111.1, 1203.7] {
        let own = DragGrid::new(&path, bit_depth, 10.0, &friction);
        for motion in [UP, DOWN, TURNING] {
            let (a, b) = (surface(&whole, &STRING, bit_depth, motion), surface(&own, &STRING, bit_depth, motion));
            assert!((a.effective_tension / b.effective_tension - 1.0).abs() < 1e-5);
            assert!((a.torque - b.torque).abs() < 1e-4 * b.torque.max(1.0));
        }
    }
}

/// The working shows the steps that were taken: the last one ends with the tension and torque at surface.
#[test]
fn law_working_ends_at_surface() {
    let path = winding();
    let grid = DragGrid::new(&path, 3000.0, 30.0, &[(3000.0, 0.3)]);
    let bit = BitLoad { weight: 1.5e5, torque: 6e3 };
    let motion = StringMotion { axial_speed: 0.1, rotary_speed: 12.0 };
    let hanging = Hanging { pieces: &STRING, bit_depth: 2950.0, motion, bit };
    let (mut nodes, mut working) = (Vec::new(), Working::default());
    let surface = grid.march(&hanging, &mut nodes, &mut working);
    assert_eq!(surface, grid.march(&hanging, &mut Vec::new(), &mut Off));
    let last = |slug: &str| {
        let mut steps = working.lines.iter().filter_map(|line| match line {
            Line::Step { record, value, .. } if record.slug == slug => Some(*value),
            _ => None,
        });
        steps.next_back().unwrap()
    };
    assert!((last("tension-above") / surface.effective_tension - 1.0).abs() < 1e-12);
    assert!((last("torque-above") / surface.torque - 1.0).abs() < 1e-12);
    let rows = working.lines.iter().find_map(|line| match line {
        Line::Table { rows, .. } => Some(rows.len()),
        _ => None,
    });
    assert_eq!(rows, Some(nodes.len()));
    assert!((nodes[0].effective_tension + 1.5e5).abs() < 1e-9);
    let neutral = neutral_point(&nodes).unwrap();
    assert!(neutral < 2950.0 && neutral > 2500.0, "{neutral}");
}

/// Every place is reached once: depths fall from the bit to surface, and pieces end where they should.
#[test]
fn law_nodes_climb_to_surface() {
    let grid = DragGrid::new(&winding(), 3000.0, 45.0, &[(1500.0, 0.2), (3000.0, 0.3)]);
    let mut nodes = Vec::new();
    let hanging = Hanging { pieces: &STRING, bit_depth: 2950.0, motion: UP, bit: BitLoad::default() };
    grid.march(&hanging, &mut nodes, &mut Off);
    assert!(nodes.windows(2).all(|pair| pair[1].depth < pair[0].depth));
    assert_eq!((nodes[0].depth, nodes[nodes.len() - 1].depth), (2950.0, 0.0));
    for end in [2950.0 - 180.0, 2950.0 - 180.0 - 95.5, 1500.0] {
        assert!(nodes.iter().any(|node| (node.depth - end).abs() < 1e-9), "a node at {end}");
    }
    let shallow = Hanging { bit_depth: 100.0, ..hanging };
    assert!(grid.march(&shallow, &mut nodes, &mut Off).depth.abs() < 1e-12);
}

/// Definition: two marches at once are both marches, to the last digit, whatever their depths and however many steps each takes.
#[test]
fn law_two_marches_at_once_are_both_marches() {
    let walls = [
        Wall { bottom: 1500.0, friction_factor: 0.2, diameter: 0.3 },
        Wall { bottom: 3000.0, friction_factor: 0.3, diameter: 0.22 },
    ];
    let grid = DragGrid::in_hole(&winding(), 3000.0, 45.0, &walls);
    let rougher = grid.rubbing(&walls.map(|wall| Wall { friction_factor: 2.0 * wall.friction_factor, ..wall }));
    let stiff = STRING.map(|piece| StringPiece {
        body_diameter: 0.127,
        youngs_modulus: 206.8e9,
        second_moment: 5.94e-6,
        lift: 3.0,
        ..piece
    });
    let bit = BitLoad { weight: 2e5, torque: 3e3 };
    let hangings = [
        Hanging { pieces: &STRING, bit_depth: 2950.0, motion: UP, bit: BitLoad::default() },
        Hanging { pieces: &stiff, bit_depth: 3000.0, motion: DOWN, bit },
        Hanging { pieces: &stiff[..1], bit_depth: 2950.0, motion: TURNING, bit },
        Hanging { pieces: &stiff[1..], bit_depth: 40.0, motion: UP, bit },
        Hanging { pieces: &STRING, bit_depth: 0.0, motion: UP, bit },
        Hanging { pieces: &[], bit_depth: 1000.0, motion: UP, bit },
    ];
    for one in &hangings {
        let mut alone = Vec::new();
        let top = grid.march(one, &mut alone, &mut Off);
        assert_eq!(grid.surface(one), top);
        for other in &hangings {
            let (mut nodes, mut others) = (vec![top], Vec::new());
            let tops = grid.march_both([one, other], [&mut nodes, &mut others]);
            assert_eq!((tops[0], &nodes), (top, &alone), "{one:?} beside {other:?}");
            assert_eq!(tops[1], grid.march(other, &mut nodes, &mut Off));
            assert_eq!(others, nodes, "{other:?} beside {one:?}");
        }
        assert_eq!(DragGrid::surface_in_both([&grid, &rougher], one), [grid.surface(one), rougher.surface(one)]);
    }
}

/// Definition: the same arcs with a station at every step, which no stride passes over. A stride is out by a part in a hundred
/// thousand of the drag at most, and by nothing in straight hole.
#[test]
fn law_a_stride_is_its_steps() {
    let radians =
        |(depth, inclination, azimuth): (f64, f64, f64)| (depth, f64::to_radians(inclination), f64::to_radians(azimuth));
    let few =
        [(0.0, 0.0, 74.0), (900.0, 0.0, 74.0), (1300.0, 24.0, 76.0), (2600.0, 24.4, 77.0), (4100.0, 23.6, 78.0)].map(radians);
    let sparse = Path::from_stations(&few).unwrap();
    let dense: Vec<_> = (0..=164).map(|count| sparse.at(25.0 * f64::from(count))).collect();
    let dense: Vec<_> = dense.iter().map(|station| (station.depth, station.inclination, station.azimuth)).collect();
    let dense = Path::from_stations(&dense).unwrap();
    let grids = [&sparse, &dense].map(|path| DragGrid::new(path, 4100.0, 25.0, &[(1800.0, 0.2), (4100.0, 0.3)]));
    let smooth = DragGrid::new(&dense, 4100.0, 25.0, &[]);
    for (motion, bit_depth) in [(UP, 4100.0), (DOWN, 4100.0), (TURNING, 4100.0), (UP, 3333.3), (DOWN, 1111.1), (UP, 640.0)] {
        let [mut nodes, mut steps] = [Vec::new(), Vec::new()];
        let hanging = Hanging { pieces: &STRING, bit_depth, motion, bit: BitLoad::default() };
        let strides = grids[0].march(&hanging, &mut nodes, &mut Off);
        let fine = grids[1].march(&hanging, &mut steps, &mut Off);
        assert!(nodes.len() < steps.len() / 2, "{} of {}", nodes.len(), steps.len());
        let drag = (fine.effective_tension - surface(&smooth, &STRING, bit_depth, UP).effective_tension).abs().max(1.0);
        let (tension, torque) = (strides.effective_tension - fine.effective_tension, strides.torque - fine.torque);
        assert!(tension.abs() <= 1e-5 * drag, "{bit_depth} m {motion:?}: {tension} N of {drag}");
        assert!(torque.abs() <= 1e-5 * fine.torque.max(1.0), "{bit_depth} m: {torque} N m of {}", fine.torque);
    }
}

/// 5 in pipe that winds in a straight hole of 80°: pushed down, or turning on bottom.
fn wound_pipe(step: f64, motion: StringMotion, weight: f64, diameter: f64) -> (DragNode, f64) {
    let (length, inclination, friction_factor) = (600.0, 80f64.to_radians(), 0.3);
    let path = Path::from_stations(&[(0.0, inclination, 1.0)]).unwrap();
    let walls = [Wall { bottom: length, friction_factor, diameter }];
    let grid = DragGrid::in_hole(&path, length, step, &walls);
    let piece = StringPiece {
        length,
        buoyed_weight: 263.0,
        radius: 0.084,
        body_diameter: 0.127,
        youngs_modulus: 206.8e9,
        second_moment: 5.94e-6,
        lift: 0.0,
    };
    let bit = BitLoad { weight, torque: 0.0 };
    let surface = grid.march(&Hanging { pieces: &[piece], bit_depth: length, motion, bit }, &mut Vec::new(), &mut Off);
    // Drag of lying pipe less its weight along the hole.
    (surface, 263.0 * (friction_factor * inclination.sin() - inclination.cos()))
}

/// The drag of a helix adds up to the closed form of Wu & Juvkam-Wold; half the step leaves a quarter of the error.
#[test]
fn law_wound_pipe_loses_weight_by_the_closed_form() {
    let weight = 3e5;
    let through = |push: f64, lying_drag: f64| {
        let (clearance, length) = (0.5 * (0.2159 - 0.127), 600.0);
        let (friction_factor, youngs_modulus, second_moment) = (0.3, 206.8e9, 5.94e-6);
        crate::rotating::WeightThroughHelix {
            push,
            lying_drag,
            friction_factor,
            clearance,
            youngs_modulus,
            second_moment,
            length,
        }
        .value()
    };
    let error = |step: f64| {
        let (surface, lying) = wound_pipe(step, DOWN, weight, 0.2159);
        through(-surface.effective_tension, lying) / weight - 1.0
    };
    let (coarse, fine) = (error(20.0), error(10.0));
    assert!(coarse.abs() < 2e-3, "{coarse}");
    assert!((3.2..4.8).contains(&(coarse / fine)), "{coarse} {fine}");
    assert!(error(1.0).abs() < 1e-5);
}

/// In a hole of unknown width, and where compression is small, pipe does not wind; turning pipe loses no weight.
#[test]
fn law_pipe_winds_only_above_the_onset() {
    let plain = |weight: f64, lying: f64| weight + 600.0 * lying;
    for (weight, diameter) in [(3e5, 0.0), (1e5, 0.2159)] {
        let (surface, lying) = wound_pipe(10.0, DOWN, weight, diameter);
        assert!((-surface.effective_tension / plain(weight, lying) - 1.0).abs() < 1e-9, "{weight}");
    }
    let (turning, _) = wound_pipe(10.0, TURNING, 3e5, 0.2159);
    let (lying, _) = wound_pipe(10.0, TURNING, 3e5, 0.0);
    assert!((turning.effective_tension / lying.effective_tension - 1.0).abs() < 1e-12);
    assert!(turning.torque > 1.5 * lying.torque, "the helix is turned against the wall");
}

/// Where the hole goes from straight to bent, stiff pipe drags by μ times its push, once; the push does not hang on the step.
#[test]
fn law_stiff_pipe_pushes_where_the_bend_changes() {
    let (build, friction_factor, diameter) = (3f64.to_radians() / 30.0, 0.25, 0.3112);
    let path = Path::from_stations(&[(0.0, 0.0, 0.0), (600.0, 0.0, 0.0), (900.0, 300.0 * build, 0.0)]).unwrap();
    let stiff = StringPiece {
        length: 900.0,
        buoyed_weight: 1500.0,
        radius: 0.1016,
        body_diameter: 0.2032,
        youngs_modulus: 206.8e9,
        second_moment: 8.2e-5,
        lift: 0.0,
    };
    let surface = |piece: StringPiece, step: f64| {
        let grid = DragGrid::in_hole(&path, 900.0, step, &[Wall { bottom: 900.0, friction_factor, diameter }]);
        let mut nodes = Vec::new();
        let hanging = Hanging { pieces: &[piece], bit_depth: 900.0, motion: UP, bit: BitLoad::default() };
        let top = grid.march(&hanging, &mut nodes, &mut Off);
        (top.effective_tension, nodes.iter().find(|node| (node.depth - 600.0).abs() < 1e-9).unwrap().effective_tension)
    };
    let soft = StringPiece { second_moment: 0.0, ..stiff };
    for step in [30.0, 5.0] {
        let ((with, _), (without, tension)) = (surface(stiff, step), surface(soft, step));
        let push = build * (206.8e9 * 8.2e-5 * tension).sqrt();
        assert!(((with - without) / (friction_factor * push) - 1.0).abs() < 1e-9, "{with} {without} {push}");
    }
}

/// Mud that flows past lifts the string by its lift along the whole length, whatever the inclination.
#[test]
fn law_lift_takes_its_length_off_the_hook() {
    let grid = DragGrid::new(&winding(), 3000.0, 30.0, &[]);
    let lifted = STRING.map(|piece| StringPiece { lift: 7.0, ..piece });
    let (plain, with) = (surface(&grid, &STRING, 2950.0, TURNING), surface(&grid, &lifted, 2950.0, TURNING));
    assert!((plain.effective_tension - with.effective_tension - 7.0 * 2950.0).abs() < 1e-6);
}
