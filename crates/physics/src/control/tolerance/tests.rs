//! Kick tolerance: identities and bounds.

use super::super::annulus::{Annulus, AnnulusSection};
use super::super::gas::{Gas, ZMethod};
use super::*;
use crate::numerics::root;
use crate::{Line, STANDARD_ATMOSPHERE, STANDARD_GRAVITY, Working};

fn geotherm(vertical_depth: f64) -> f64 {
    288.15 + 0.03 * vertical_depth
}

const METHANE: GasLaw = GasLaw::Real { gas: Gas::METHANE, method: ZMethod::Tabulated, atmosphere: STANDARD_ATMOSPHERE };

/// Collars, pipe in open hole, pipe in casing: 8 1/2 in hole.
fn annulus() -> Annulus {
    let section = |capacity, length: f64| AnnulusSection { capacity, length, height: length };
    Annulus::new(vec![section(0.0152, 200.0), section(0.0239, 1300.0), section(0.0255, 2000.0)], 3500.0).unwrap()
}

fn well(annulus: &Annulus, law: GasLaw, intensity: f64) -> KickWell<'_> {
    let path = GasPath { annulus, law, temperature: &geotherm, gravity: STANDARD_GRAVITY };
    KickWell { path, mud_weight: 1380.0, formation_pressure: (1380.0 + intensity) * STANDARD_GRAVITY * 3500.0 }
}

fn shoe(weight: f64) -> WeakPoint {
    WeakPoint { vertical_depth: 2000.0, allowed_pressure: weight * STANDARD_GRAVITY * 2000.0 }
}

#[test]
fn law_tolerance_falls_with_intensity_and_grows_with_strength() {
    let annulus = annulus();
    let volume =
        |intensity, weight| well(&annulus, METHANE, intensity).tolerance(&mut Off, shoe(weight)).unwrap().governing().volume();
    assert!(volume(0.0, 1700.0) > volume(60.0, 1700.0));
    assert!(volume(60.0, 1700.0) > volume(120.0, 1700.0));
    assert!(volume(60.0, 1750.0) > volume(60.0, 1700.0));
}

#[test]
fn law_tolerance_vanishes_where_the_kick_tolerance_factor_says() {
    let annulus = annulus();
    // Zero gain: intensity = (D_shoe/D) (EMW - MW).
    let limit = 2000.0 / 3500.0 * (1700.0 - 1380.0);
    let at = |intensity| well(&annulus, METHANE, intensity).tolerance(&mut Off, shoe(1700.0)).unwrap();
    assert_eq!(at(limit + 0.1).governing(), Allowed::Nothing);
    assert!(at(limit - 0.1).governing().volume() < 0.05);
    assert!(at(limit - 0.1).governing().volume() > 0.0);
}

#[test]
fn law_a_strong_shoe_sets_no_limit() {
    let annulus = annulus();
    let tolerance = well(&annulus, METHANE, 60.0).tolerance(&mut Off, shoe(2500.0)).unwrap();
    assert!(matches!(tolerance.governing(), Allowed::Everything(volume) if (volume - annulus.volume_below(2000.0)).abs() < 1e-9));
}

#[test]
fn law_both_instants_put_the_weak_point_at_its_limit() {
    let annulus = annulus();
    let well = well(&annulus, METHANE, 60.0);
    let weak = shoe(1700.0);
    let tolerance = well.tolerance(&mut Off, weak).unwrap();
    // Initial shut-in, worked forward.
    let volume = tolerance.at_shut_in.volume();
    let bubble = Bubble { below: 0.0, volume, bottom_pressure: well.formation_pressure };
    let top = well.path.state(bubble).unwrap().top_pressure;
    let above = 1500.0 - annulus.height(volume);
    assert!((top - 1380.0 * STANDARD_GRAVITY * above - weak.allowed_pressure).abs() < 1.0);
    // The influx of the other instant, moved up to the weak point by mass.
    let volume = tolerance.at_weak_point.volume();
    let mass = well.path.state(Bubble { volume, ..bubble }).unwrap().amount;
    let open = annulus.volume_below(2000.0);
    let moved = root(
        |volume| {
            let below = open - volume;
            let bottom_pressure = well.formation_pressure - 1380.0 * STANDARD_GRAVITY * annulus.height(below);
            well.path.state(Bubble { below, volume, bottom_pressure }).unwrap().amount - mass
        },
        0.0,
        open,
    )
    .unwrap();
    let below = open - moved;
    let bottom_pressure = well.formation_pressure - 1380.0 * STANDARD_GRAVITY * annulus.height(below);
    let top = well.path.state(Bubble { below, volume: moved, bottom_pressure }).unwrap().top_pressure;
    assert!((top - weak.allowed_pressure).abs() < 1.0, "{top} {}", weak.allowed_pressure);
}

#[test]
fn law_collars_make_the_initial_shut_in_govern_a_small_influx() {
    let annulus = annulus();
    let near = 2000.0 / 3500.0 * (1700.0 - 1380.0) - 3.0;
    let tolerance = well(&annulus, METHANE, near).tolerance(&mut Off, shoe(1700.0)).unwrap();
    assert!(tolerance.at_shut_in.volume() < tolerance.at_weak_point.volume());
}

#[test]
fn law_governing_alone_is_the_smaller_of_both() {
    let annulus = annulus();
    for step in 0..60 {
        let well = well(&annulus, METHANE, 4.0 * f64::from(step));
        let both = well.tolerance(&mut Off, shoe(1700.0)).unwrap().governing();
        assert_eq!(well.governing(shoe(1700.0)), Some(both), "{step}");
    }
}

#[test]
fn law_what_surely_passes_is_never_more_than_the_tolerance() {
    let annulus = annulus();
    for intensity in [0.0, 30.0, 60.0, 120.0, 180.0] {
        let well = well(&annulus, METHANE, intensity);
        for step in 0..30 {
            let vertical_depth = 2000.0 + 45.0 * f64::from(step);
            for weight in [1550.0, 1650.0, 1750.0] {
                let weak = WeakPoint { vertical_depth, allowed_pressure: weight * STANDARD_GRAVITY * vertical_depth };
                let sure = well.lets_pass(weak);
                match well.governing(weak).unwrap() {
                    Allowed::Nothing => assert!(sure <= 0.0, "{intensity} {vertical_depth} {weight}"),
                    Allowed::Volume(volume) => {
                        assert!(sure <= volume, "{intensity} {vertical_depth} {weight}: {sure} {volume}");
                    }
                    Allowed::Everything(_) => {}
                }
            }
        }
    }
}

#[test]
fn law_what_passes_by_one_bubble_is_never_more_than_the_tolerance() {
    let annulus = annulus();
    let (mut sure, mut unsure) = (0, 0);
    for intensity in [0.0, 30.0, 60.0, 120.0] {
        let well = well(&annulus, METHANE, intensity);
        for step in 0..20 {
            let vertical_depth = 2000.0 + 70.0 * f64::from(step);
            for weight in [1550.0, 1650.0, 1750.0] {
                let weak = WeakPoint { vertical_depth, allowed_pressure: weight * STANDARD_GRAVITY * vertical_depth };
                let allowed = match well.governing(weak).unwrap() {
                    Allowed::Everything(_) => f64::INFINITY,
                    some => some.volume(),
                };
                for volume in [0.1, 1.0, 5.0, 0.5 * allowed, 0.9 * allowed, 1.001 * allowed] {
                    let passes = well.surely_passes(weak, volume);
                    assert!(!passes || volume <= allowed, "{intensity} {vertical_depth} {weight}: {volume} {allowed}");
                    let easily = volume <= 0.9 * allowed && allowed.is_finite();
                    sure += u32::from(easily && passes);
                    unsure += u32::from(easily && !passes);
                }
            }
        }
    }
    assert!(sure > 5 * unsure, "{sure} {unsure}");
}

#[test]
fn law_working_holds_the_books_height_and_the_same_figure() {
    let annulus = annulus();
    let well = well(&annulus, METHANE, 60.0);
    let mut working = Working::default();
    let shown = well.tolerance(&mut working, shoe(1700.0)).unwrap();
    assert_eq!(Some(shown), well.tolerance(&mut Off, shoe(1700.0)));
    let step = |slug: &str| {
        let of = |line: &Line| match line {
            Line::Step { record, value, .. } if record.slug == slug => Some(*value),
            _ => None,
        };
        working.lines.iter().find_map(of).unwrap()
    };
    let height = annulus.height(shown.at_shut_in.volume());
    assert!((step("allowable-influx-height") - height).abs() < 1e-3);
    assert!((step("influx-volume-by-mass") - shown.at_weak_point.volume()).abs() < 1e-6);
}
