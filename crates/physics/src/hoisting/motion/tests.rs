//! The motion of the block against small steps of time, and the drum against the line it holds.

use super::*;
use crate::hoisting::{FastLineLowering, SHEAVE_FACTOR, StoppingDistance};
use crate::{Line, Off, Working};

const DRUM: Drum = Drum { bare_diameter: 0.762, line_diameter: 0.0349, wraps: 36.0, dead_wraps: 10.0 };

/// All the line that is asked for lies on the drum, layer on layer without a gap; each layer is full but the last.
#[test]
fn law_layers_hold_the_line() {
    for wound in [50.0, 330.0, 800.0] {
        let layers = DRUM.layers(wound, &mut Off);
        assert!((layers[0].from, layers[layers.len() - 1].to) == (0.0, wound));
        for pair in layers.windows(2) {
            assert!((pair[1].from - pair[0].to).abs() < 1e-12 && pair[1].layer == pair[0].layer + 1);
            assert!(pair[1].diameter > pair[0].diameter);
        }
        let wraps: f64 = layers.iter().map(|one| (one.to - one.from) / (PI * one.diameter)).sum();
        let most = 36.0 * layers.len() as f64 - 10.0;
        assert!(wraps <= most + 1e-9 && wraps > most - 36.0 - 1e-9);
    }
    let deep = Drum { dead_wraps: 50.0, ..DRUM }.layers(10.0, &mut Off);
    assert_eq!(deep[0].layer, 2, "dead wraps that fill a layer push the line to the next");
}

/// Pull times speed is the power of the drum on every layer; the full drum pulls least.
#[test]
fn law_full_drum_pulls_least() {
    let drive = DrumDrive { torque: 9e4, drum_speed: 20.0, lines: 10.0 };
    let courses = layer_courses(&DRUM, &drive, 32.0, &mut Off);
    assert!(courses.len() > 2 && (courses[courses.len() - 1].block_to - 32.0).abs() < 1e-9);
    for course in &courses {
        assert!((course.line_pull * course.block_speed * 10.0 / (9e4 * 20.0) - 1.0).abs() < 1e-12);
    }
    assert!(courses.windows(2).all(|pair| pair[1].line_pull < pair[0].line_pull));
}

/// Stopping takes up the weight over the way and the motion: braking force times way.
#[test]
fn law_stop_energy_is_force_times_way() {
    let (hook_load, block_speed, deceleration, gravity) = (1.5e6, 1.1, 0.6, STANDARD_GRAVITY);
    let way = StoppingDistance { block_speed, deceleration }.value();
    let energy = StopEnergy { hook_load, block_speed, gravity, way }.value();
    let held = hook_load * (1.0 + deceleration / gravity);
    assert!((energy / (held * way) - 1.0).abs() < 1e-12);
}

/// The brake takes up the power of the falling load less what the sheaves take, and nothing is lost without friction.
#[test]
fn law_brake_takes_the_power_of_the_load() {
    let (hook_load, lines, block_speed) = (1.5e6, 10.0, 0.8);
    let power = |sheave_factor: f64| {
        let fast_line = FastLineLowering { hook_load, sheave_factor, lines }.value();
        BrakePower { fast_line, lines, block_speed }.value()
    };
    assert!((power(1.0 + 1e-9) / (hook_load * block_speed) - 1.0).abs() < 1e-6);
    assert!(power(SHEAVE_FACTOR) < hook_load * block_speed);
}

fn hoist() -> Hoist {
    Hoist {
        power: 1.1e6,
        tackle_efficiency: 0.81,
        drum_efficiency: 0.9,
        line_speed: 15.0,
        lines: 10.0,
        acceleration: 0.5,
        deceleration: 0.8,
        brake_power: None,
        travelling_weight: 3.0e5,
        connection: 60.0,
    }
}

fn stands(count: u32, hole_speed: f64) -> Vec<TripStand> {
    let stand = |left: u32| TripStand {
        bit_depth: 28.0 * f64::from(left),
        length: 28.0,
        string_load: 9e4 + 256.0 * 28.0 * f64::from(left),
        hole_speed,
    };
    (1..=count).rev().map(stand).collect()
}

/// Marched in small steps of time, a stand takes as long as the trip says, with unlike speeding up and slowing down.
#[test]
fn law_stand_time_is_the_motion_marched() {
    let one = TripStand { bit_depth: 2000.0, length: 28.0, string_load: 6e5, hole_speed: 0.7 };
    for (hole_speed, length) in [(0.7, 28.0), (9.0, 28.0), (9.0, 1.0)] {
        let stand = TripStand { hole_speed, length, ..one };
        let time = hoist().trip(&[stand], TripWay::Out, &mut Off).loaded;
        let top = hole_speed.min(1.5).min(1.1e6 * 0.81 * 0.9 / 9e5);
        let (mut done, mut speed, mut clock, step) = (0.0, 0.0f64, 0.0, 1e-5);
        while done < length {
            let slow = speed * speed / (2.0 * 0.8) >= length - done;
            let next = if slow { speed - 0.8 * step } else { (speed + 0.5 * step).min(top) };
            if next <= 0.0 {
                break;
            }
            done += 0.5 * (speed + next) * step;
            speed = next;
            clock += step;
        }
        assert!((clock - time).abs() < 5e-3 * time, "{clock} {time}");
    }
}

/// A trip is the sum of its stands; light loads hit the line's speed, the hole's speed holds all back.
#[test]
fn law_trip_is_the_sum_of_its_stands() {
    let all = stands(80, 5.0);
    let whole = hoist().trip(&all, TripWay::Out, &mut Off);
    let (deep, shallow) = all.split_at(33);
    let parts = hoist().trip(deep, TripWay::Out, &mut Off).total() + hoist().trip(shallow, TripWay::Out, &mut Off).total();
    assert!((whole.total() - parts).abs() < 1e-6);
    assert!((whole.connections - 80.0 * 60.0).abs() < 1e-9);
    let slow = hoist().trip(&stands(80, 0.3), TripWay::Out, &mut Off);
    assert!((slow.loaded - 80.0 * (28.0 / 0.3 + 0.3 * 0.5 * (1.0 / 0.5 + 1.0 / 0.8))).abs() < 1e-6);
    let running = hoist().trip(&all, TripWay::In, &mut Off);
    assert!(running.loaded < whole.loaded, "power does not limit lowering");
    let braked = Hoist { brake_power: Some(3e5), ..hoist() }.trip(&all[..1], TripWay::In, &mut Off);
    let speed = 3e5 / (all[0].string_load + 3e5);
    assert!((braked.loaded - (28.0 / speed + speed * 0.5 * (1.0 / 0.5 + 1.0 / 0.8))).abs() < 1e-9);
    let mut working = Working::default();
    assert_eq!(hoist().trip(&all, TripWay::Out, &mut working), whole);
    let rows = working.lines.iter().find_map(|line| match line {
        Line::Table { rows, .. } => Some(rows.len()),
        _ => None,
    });
    assert_eq!(rows, Some(80));
}
