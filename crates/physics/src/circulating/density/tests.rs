//! Laws of density: liquids against each other and against libraries, muds, still columns.

use super::brine::{
    CalciumChlorideBrine, HeavyBrine, MagnesiumChlorideBrine, PotassiumChlorideBrine, SaltBrineDensity, SodiumChlorideBrine,
    salt_fraction_for, surface_brine_density,
};
use super::mud::{Composition, Part, Recipe};
use super::oil::BaseOilDensity;
use super::salts::Salt;
use super::still::{ColumnTop, DepthTemperature, still_column};
use super::*;
use crate::field::PSI;
use crate::{Formula, Line, Off, STANDARD_GRAVITY, Working};

const TOP: ColumnTop = ColumnTop { pressure: 0.0, gravity: STANDARD_GRAVITY };

fn state(pressure: f64, celsius: f64) -> State {
    State::new(pressure + STANDARD_ATMOSPHERE, celsius + 273.15).unwrap()
}

fn fahrenheit(degrees: f64) -> f64 {
    (degrees - 32.0) / 1.8
}

fn close(a: f64, b: f64, relative: f64) {
    assert!((a - b).abs() <= relative * b.abs(), "{a} is not {b}");
}

fn heavy() -> HeavyBrine {
    // Calcium bromide of 14.3 ppg at 70 °F: API RP 13J.
    let [thermal_expansion, compressibility] = [2.33e-4 * 1.8, 1.53e-6 / PSI];
    HeavyBrine { density: 1713.5, reference_temperature: 294.26, thermal_expansion, compressibility }
}

fn liquids() -> Vec<Liquid> {
    let brines = Salt::ALL.map(|salt| Liquid::Brine { salt, salt_fraction: 0.8 * salt.most() });
    let six = [SixCoefficients::MINERAL_OIL, SixCoefficients::INTERNAL_OLEFIN, SixCoefficients::CALCIUM_CHLORIDE_19];
    let others = [
        Liquid::FreshWater,
        Liquid::BatzleWang { salt_fraction: 0.15 },
        Liquid::HeavyBrine(heavy()),
        Liquid::BaseOil(850.0),
        Liquid::BaseOil(800.0),
        Liquid::Dodecane,
        Liquid::Decane,
    ];
    brines.into_iter().chain(six.map(Liquid::SixCoefficients)).chain(others).collect()
}

#[test]
fn law_liquids_grow_denser_with_pressure_and_lighter_with_heat() {
    for liquid in liquids() {
        assert!(liquid.is_sane());
        for celsius in [25.0, 80.0, 140.0] {
            for pressure in [0.0, 3e7, 1e8] {
                let here = liquid.density(state(pressure, celsius), &mut Off);
                assert!(liquid.density(state(pressure + 1e6, celsius), &mut Off) > here, "{liquid:?} {pressure} {celsius}");
                assert!(liquid.density(state(pressure, celsius + 10.0), &mut Off) < here, "{liquid:?} {pressure} {celsius}");
            }
        }
    }
}

/// Every liquid has a density wherever a state may be.
#[test]
fn law_densities_are_positive_at_the_ends_of_the_states() {
    for liquid in liquids() {
        for absolute_pressure in [0.0, 5e8] {
            for temperature in [COLDEST, HOTTEST] {
                let density = liquid.density(State::new(absolute_pressure, temperature).unwrap(), &mut Off);
                assert!(density > 300.0 && density < 3000.0, "{liquid:?} {density}");
            }
        }
    }
    assert!(State::new(6e8, 300.0).is_none() && State::new(1e5, 272.0).is_none() && State::new(f64::NAN, 300.0).is_none());
}

/// Without salt the chlorides are water: two sources, each within 0.02 % of IAPWS-95.
#[test]
fn law_brine_without_salt_is_water() {
    for celsius in [25.0, 90.0, 190.0] {
        let (absolute_pressure, temperature) = (6e7, celsius + 273.15);
        let water = FreshWaterDensity { absolute_pressure, temperature }.value();
        let salt_fraction = 0.0;
        close(SodiumChlorideBrine { salt_fraction, absolute_pressure, temperature }.value(), water, 4e-4);
        close(PotassiumChlorideBrine { salt_fraction, absolute_pressure, temperature }.value(), water, 4e-4);
        close(CalciumChlorideBrine { salt_fraction, absolute_pressure, temperature }.value(), water, 4e-4);
        close(MagnesiumChlorideBrine { salt_fraction, absolute_pressure, temperature }.value(), water, 4e-4);
        // Batzle & Wang claim no more than 0.35 % for water.
        close(SaltBrineDensity { salt_fraction, pressure: absolute_pressure, temperature }.value(), water, 3.5e-3);
    }
}

/// Two fits to different measurements agree at one atmosphere within 0.2 %.
#[test]
fn law_brines_at_one_atmosphere_agree() {
    for (salt, shares) in [
        (Salt::SodiumChloride, [0.05, 0.15, 0.25]),
        (Salt::PotassiumChloride, [0.05, 0.15, 0.24]),
        (Salt::CalciumChloride, [0.1, 0.2, 0.38]),
    ] {
        for salt_fraction in shares {
            for celsius in [5.0, 25.0, 60.0] {
                let measured = Liquid::Brine { salt, salt_fraction }.density(state(0.0, celsius), &mut Off);
                close(surface_brine_density(salt, salt_fraction, celsius + 273.15, &mut Off), measured, 2e-3);
            }
        }
    }
}

/// Compressibilities of API RP 13J (Krook & Boyce 1984, as printed in Well Control for Completions and Interventions,
/// table 5.3): mean from 2,000 to 12,000 psi at 198 °F. Measurements of the two groups are 5 % apart.
#[test]
fn published_krook_boyce_compressibilities() {
    for (salt, ppg, printed) in [(Salt::SodiumChloride, 9.49, 1.98e-6), (Salt::CalciumChloride, 11.46, 1.50e-6)] {
        let salt_fraction = salt_fraction_for(salt, ppg * crate::field::POUND_PER_GALLON, fahrenheit(70.0) + 273.15).unwrap();
        let brine = Liquid::Brine { salt, salt_fraction };
        let [low, high] = [2e3, 12e3].map(|psi| brine.density(state(psi * PSI, fahrenheit(198.0)), &mut Off));
        close((1.0 - low / high) / 10e3, printed, 0.05);
    }
}

/// The polynomials by memory agree with the default within what is said of them: 1.1, 1.3 and 1.5 %.
#[test]
fn law_six_coefficients_agree_with_the_defaults() {
    let brine = Liquid::Brine { salt: Salt::CalciumChloride, salt_fraction: 0.193 };
    for (six, other, within) in [
        (SixCoefficients::MINERAL_OIL, Liquid::BaseOil(814.15), 0.011),
        (SixCoefficients::INTERNAL_OLEFIN, Liquid::BaseOil(794.74), 0.013),
        (SixCoefficients::CALCIUM_CHLORIDE_19, brine, 0.015),
    ] {
        for degrees in [60.0, 200.0, 350.0] {
            for psi in [0.0, 1e4, 2e4] {
                let state = state(psi * PSI, fahrenheit(degrees));
                close(Liquid::SixCoefficients(six).density(state, &mut Off), other.density(state, &mut Off), within);
            }
        }
    }
}

/// Where the two groups of oils meet, their densities do.
#[test]
fn law_base_oils_join() {
    let density = |density_60: f64| BaseOilDensity { density_60, pressure: 5e7, temperature: 400.0 }.value();
    close(density(838.3), density(838.3_f64.next_up()), 1e-4);
}

#[test]
fn law_salt_for_a_density_gives_it() {
    for salt in Salt::ALL {
        let half = 0.5 * salt.most();
        let density = surface_brine_density(salt, half, 300.0, &mut Off);
        close(salt_fraction_for(salt, density, 300.0).unwrap(), half, 1e-9);
        assert!(salt_fraction_for(salt, 900.0, 300.0).is_none() && salt_fraction_for(salt, 2500.0, 300.0).is_none());
        assert!(!salt.name().is_empty());
    }
}

fn oil_mud() -> Composition {
    let recipe = Recipe {
        oil: Liquid::BaseOil(800.0),
        water: Liquid::Brine { salt: Salt::CalciumChloride, salt_fraction: 0.25 },
        oil_share: 0.8,
        solids_density: 4200.0,
    };
    Composition::from_weight(1500.0, State::at_surface(322.0).unwrap(), &recipe, &mut Off).unwrap()
}

#[test]
fn law_a_mud_weighs_what_it_weighed() {
    let mud = oil_mud();
    close(mud.density(mud.reference(), &mut Off), 1500.0, 1e-12);
    let [oil, water, solids] = mud.fractions();
    close(oil + water + solids, 1.0, 1e-12);
    close(oil / (oil + water), 0.8, 1e-12);
    // The parts weigh as much as the whole.
    let reference = mud.reference();
    let brine = Liquid::Brine { salt: Salt::CalciumChloride, salt_fraction: 0.25 };
    let parts = oil * Liquid::BaseOil(800.0).density(reference, &mut Off) + water * brine.density(reference, &mut Off);
    close(parts + solids * 4200.0, 1500.0, 1e-12);
    assert!(mud.density(state(1e8, 49.0), &mut Off) > 1500.0 && mud.density(state(0.0, 120.0), &mut Off) < 1500.0);
}

/// Solids do not give way: a mud of solids alone keeps its weight, one of water alone is water.
#[test]
fn law_a_mud_of_one_part_is_that_part() {
    let reference = State::at_surface(290.0).unwrap();
    let part = |fraction: f64| Part { liquid: Liquid::FreshWater, fraction };
    let solid = Composition::new(4200.0, reference, part(0.0), part(0.0)).unwrap();
    close(solid.density(state(9e7, 150.0), &mut Off), 4200.0, 1e-12);
    let weight = Liquid::FreshWater.density(reference, &mut Off);
    let water = Composition::new(weight, reference, part(0.0), part(1.0)).unwrap();
    close(water.density(state(9e7, 150.0), &mut Off), Liquid::FreshWater.density(state(9e7, 150.0), &mut Off), 1e-12);
}

#[test]
fn rejects_muds_that_are_none() {
    let reference = State::at_surface(290.0).unwrap();
    let part = |fraction: f64| Part { liquid: Liquid::FreshWater, fraction };
    assert!(Composition::new(1200.0, reference, part(0.6), part(0.6)).is_none());
    assert!(Composition::new(-1.0, reference, part(0.1), part(0.6)).is_none());
    let oil = Part { liquid: Liquid::BaseOil(300.0), fraction: 0.5 };
    assert!(Composition::new(1200.0, reference, oil, part(0.4)).is_none());
    let recipe = Recipe { oil: Liquid::BaseOil(800.0), water: Liquid::FreshWater, oil_share: 0.0, solids_density: 4200.0 };
    assert!(Composition::from_weight(900.0, reference, &recipe, &mut Off).is_none());
    assert!(Composition::from_weight(5000.0, reference, &recipe, &mut Off).is_none());
    assert!(Composition::from_weight(1200.0, reference, &Recipe { oil_share: 1.5, ..recipe }, &mut Off).is_none());
    assert!(Composition::from_weight(1200.0, reference, &Recipe { solids_density: 1000.0, ..recipe }, &mut Off).is_none());
    let too_salt = Liquid::Brine { salt: Salt::SodiumChloride, salt_fraction: 0.4 };
    assert!(!too_salt.is_sane() && !Liquid::HeavyBrine(HeavyBrine { density: -1.0, ..heavy() }).is_sane());
}

fn profile(depths: &[f64]) -> Vec<DepthTemperature> {
    depths.iter().map(|depth| DepthTemperature { vertical_depth: *depth, temperature: 300.0 + 0.03 * depth }).collect()
}

/// A mud that gives way to nothing stands like any column.
#[test]
fn law_a_stiff_column_is_hydrostatic() {
    let part = Part { liquid: Liquid::FreshWater, fraction: 0.0 };
    let stiff = Composition::new(1234.0, State::at_surface(300.0).unwrap(), part, part).unwrap();
    let points = still_column(&stiff, &profile(&[0.0, 10.0, 2345.0]), ColumnTop { pressure: 1e6, ..TOP }, &mut Off).unwrap();
    for point in &points {
        close(point.pressure, 1e6 + 1234.0 * STANDARD_GRAVITY * point.vertical_depth, 1e-12);
        close(point.equivalent_density, 1234.0, 1e-12);
    }
}

/// The sum of the steps does not depend on where the depths are asked for.
#[test]
fn law_a_column_does_not_depend_on_its_points() {
    let mud = oil_mud();
    let bottom = |depths: &[f64]| still_column(&mud, &profile(depths), TOP, &mut Off).unwrap().last().unwrap().pressure;
    let whole = bottom(&[0.0, 5000.0]);
    close(bottom(&[0.0, 17.0, 1800.0, 1801.0, 4000.0, 5000.0]), whole, 1e-8);
    // A hot column of oil mud is lighter than its weight at the pit, a cold one heavier.
    let cold: Vec<DepthTemperature> =
        [0.0, 5000.0].map(|vertical_depth| DepthTemperature { vertical_depth, temperature: 300.0 }).to_vec();
    let cold = still_column(&mud, &cold, TOP, &mut Off).unwrap()[1];
    assert!(cold.equivalent_density > 1500.0 && cold.pressure > whole);
}

#[test]
fn law_a_column_shows_its_first_and_last_step() {
    let mut working = Working::default();
    let points = still_column(&oil_mud(), &profile(&[0.0, 1000.0, 2000.0]), TOP, &mut working).unwrap();
    let stretches = working.lines.iter().filter(|line| matches!(line, Line::Stretch { .. })).count();
    assert_eq!(stretches, 2);
    assert!(working.lines.iter().any(|line| matches!(line, Line::Table { rows, .. } if rows.len() == 3)));
    let Some(Line::Step { value, .. }) = working.lines.last() else { panic!("no last step") };
    close(*value, points[2].equivalent_density, 1e-12);
}

#[test]
fn rejects_columns_that_are_none() {
    let mud = oil_mud();
    assert!(still_column(&mud, &[], TOP, &mut Off).is_none());
    assert!(still_column(&mud, &profile(&[100.0, 50.0]), TOP, &mut Off).is_none());
    assert!(still_column(&mud, &profile(&[-5.0, 50.0]), TOP, &mut Off).is_none());
    // Too hot at the bottom, and a hole too deep to be one.
    assert!(still_column(&mud, &profile(&[0.0, 9000.0]), TOP, &mut Off).is_none());
    let cold = [DepthTemperature { vertical_depth: 1e5, temperature: 300.0 }];
    assert!(still_column(&mud, &cold, TOP, &mut Off).is_none());
}
