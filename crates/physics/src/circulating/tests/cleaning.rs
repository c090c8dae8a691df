//! Laws of slip and hole cleaning, and of the optimum of the bit.

use super::*;
use crate::circulating::bit::choose_nozzles;
use crate::circulating::cleaning::*;
use crate::circulating::cleaning_flow::*;
use crate::circulating::optimum::*;
use crate::circulating::slip::*;
use crate::{Formula, Off};

const ROCK: Cutting = Cutting { size: 6e-3, thickness: 3e-3, density: 2600.0 };

fn hole() -> Cleaning {
    Cleaning {
        hole_diameter: 8.5 * INCH,
        pipe_diameter: 5.0 * INCH,
        density: 1250.0,
        cutting: ROCK,
        bit_diameter: 8.5 * INCH,
        penetration_rate: 0.004,
    }
}

const METHODS: [SlipMethod; 4] = [SlipMethod::Moore, SlipMethod::Chien, SlipMethod::Api1995, SlipMethod::WalkerMayes];

#[test]
fn law_cuttings_no_heavier_than_the_mud_do_not_fall() {
    let rise = Rise { annular_velocity: 0.6, width: 0.09, density: 2700.0 };
    for method in METHODS {
        assert!(slip_velocity(method, &mud(), &ROCK, &rise, &mut Off) < f64::MIN_POSITIVE);
    }
}

#[test]
fn law_larger_cuttings_fall_faster() {
    let rise = Rise { annular_velocity: 0.6, width: 0.09, density: 1250.0 };
    for method in METHODS {
        let mut before = 0.0;
        for size in [2e-3, 4e-3, 8e-3, 16e-3] {
            let cutting = Cutting { size, thickness: size / 2.0, ..ROCK };
            let now = slip_velocity(method, &mud(), &cutting, &rise, &mut Off);
            // By Walker and Mayes a small cutting may hang in the yield stress.
            let hangs = method == SlipMethod::WalkerMayes && now + before < f64::MIN_POSITIVE;
            assert!((now > before || hangs) && now < 2.0, "{method:?} {size}: {now} after {before}");
            before = now;
        }
        assert!(before > 0.0, "{method:?}");
    }
}

#[test]
fn law_moore_has_no_step() {
    let slip = |viscosity: f64| MooreSlip { cutting_size: 6e-3, cutting_density: 2600.0, density: 1200.0, viscosity }.value();
    let mut viscosity = 1e-4;
    while viscosity < 10.0 {
        let next = viscosity * 1.001;
        assert!(slip(next) <= slip(viscosity) && close(slip(next), slip(viscosity), 2e-3));
        viscosity = next;
    }
}

/// Stokes' law for the limit of a slow particle: drag 24/Re has 138.2 where the fits have 82.87 (40/Re) and 138 (Chien).
#[test]
fn law_slow_cuttings_follow_stokes() {
    let (cutting_size, cutting_density, density, viscosity) = (1e-3, 2600.0, 1200.0, 10.0);
    let stokes = 9.80665 * cutting_size * cutting_size * (cutting_density - density) / (18.0 * viscosity);
    let moore = MooreSlip { cutting_size, cutting_density, density, viscosity }.value();
    let chien = ChienSlip { cutting_size, cutting_density, density, viscosity }.value();
    let api = ApiSlip { cutting_size, cutting_density, density, viscosity }.value();
    assert!(close(moore, stokes * 24.0 / 40.0, 0.005) && close(chien, stokes, 0.005) && close(api, stokes * 24.0 / 30.0, 0.005));
}

#[test]
fn law_the_cleaning_velocity_meets_the_wish_exactly() {
    let width = 3.5 * INCH;
    for method in [SlipMethod::Moore, SlipMethod::Chien, SlipMethod::Api1995] {
        let wish = CleanWhen::TransportRatio(0.6);
        let velocity = cleaning_velocity(&mud(), &hole(), (method, wish), 0.0, &mut Off).unwrap();
        let rise = Rise { annular_velocity: velocity, width, density: 1250.0 };
        let slip_velocity = slip_velocity(method, &mud(), &ROCK, &rise, &mut Off);
        let ratio = TransportRatio { slip_velocity, annular_velocity: velocity.max(1e-12) }.value();
        assert!(close(ratio, 0.6, 1e-9) || velocity < 1e-9, "{method:?} {ratio}");
    }
}

#[test]
fn law_the_inclined_velocity_has_no_step() {
    let at = |degrees: f64| {
        let wish = (SlipMethod::Moore, CleanWhen::Concentration(0.05));
        cleaning_velocity(&mud(), &hole(), wish, degrees.to_radians(), &mut Off).unwrap()
    };
    assert!(close(at(54.999_999), at(55.000_001), 1e-6));
    let all: Vec<f64> = (0..=90).map(|degrees| at(f64::from(degrees))).collect();
    assert!(all.windows(2).all(|pair| (pair[1] - pair[0]).abs() < 0.1), "{all:?}");
    assert!(all[60] > all[0]);
}

#[test]
fn law_the_optimum_is_the_best_of_all_flows() {
    let parasitic = Parasitic { flow_rate: 0.03, loss: 1.5e7, flow_exponent: 1.8 };
    let density = 1300.0;
    for (pressure, power) in [(2.1e7, 1e9), (3e7, 4e5), (2.1e7, 5e5)] {
        let bounds = Bounds { pressure, power, least_flow: 0.005, most_flow: 0.06 };
        for aim in [Aim::Power, Aim::Impact] {
            let best = optimum(aim, &parasitic, &bounds, (density, 0.95), &mut Off).unwrap();
            let worth = |flow: f64| {
                let at_bit = pressure.min(power / flow) - parasitic.at(flow);
                let jet = (2.0 * at_bit.max(0.0) / density).sqrt();
                if aim == Aim::Power { at_bit * flow } else { density * flow * jet }
            };
            let found = worth(best.flow_rate);
            for step in 0..1000 {
                let other = worth(0.005 + 0.055 * f64::from(step) / 999.0);
                assert!(other <= found * (1.0 + 1e-9), "{aim:?} {pressure} {power}: {other} beats {found}");
            }
        }
    }
}

#[test]
fn law_the_nozzles_chosen_are_the_nearest() {
    for area in [1e-4, 2.5e-4, 4e-4, 9e-4] {
        let set = choose_nozzles(3, area).unwrap();
        let step = 2.0 * std::f64::consts::PI / 4.0 * f64::from(set.size + 1) * (INCH / 32.0).powi(2);
        assert!((set.area() - area).abs() <= step / 2.0, "{set:?} {area}");
    }
    assert_eq!(choose_nozzles(0, 1e-4), None);
}
