//! Laws of balances and filtration.

use super::close;
use crate::Formula;
use crate::circulating::balances::*;
use crate::circulating::filtration::*;
use crate::circulating::mixing::{MixedDensity, WeightUpMass};

/// Wetted or not, what goes in weighs and fills what comes out.
#[test]
fn law_wetted_weight_up_balances() {
    for wetting_ratio in [0.0, 0.35, 1.0] {
        let (volume, density, wanted_density) = (100.0, 1200.0, 1700.0);
        let (weighting_density, water_density) = (4200.0, 1000.0);
        let mass =
            WettedWeightUpMass { volume, density, wanted_density, weighting_density, wetting_ratio, water_density }.value();
        let dry = mass / weighting_density;
        let wet = wetting_ratio * dry;
        let whole = volume * density + mass + wet * water_density;
        assert!(close(whole / (volume + dry + wet), wanted_density, 1e-12));
    }
    let dry = WeightUpMass { volume: 100.0, density: 1200.0, wanted_density: 1700.0, weighting_density: 4200.0 }.value();
    let wetted = WettedWeightUpMass {
        volume: 100.0,
        density: 1200.0,
        wanted_density: 1700.0,
        weighting_density: 4200.0,
        wetting_ratio: 0.0,
        water_density: 1000.0,
    };
    assert!(close(wetted.value(), dry, 1e-12));
}

/// A cup of cuttings and water weighs what its parts weigh.
#[test]
fn law_mud_balance_of_cuttings() {
    for cuttings in [2000.0, 2400.0, 2900.0] {
        let water = 998.2;
        let volume_1 = water / cuttings;
        let reading = MixedDensity { volume_1, density_1: cuttings, volume_2: 1.0 - volume_1, density_2: water }.value();
        assert!(close(CuttingsDensityByBalance { water_density: water, reading_density: reading }.value(), cuttings, 1e-12));
    }
}

/// The retort's salt water is heavier and larger than its fresh water, by about the mass of the salt.
#[test]
fn law_salt_water_holds_its_salt() {
    // Chlorides to sodium chloride by molar mass: 58.44/35.45.
    for chlorides in [10.0, 50.0, 120.0] {
        let share = SaltWaterFraction { water_fraction: 1.0, chlorides }.value();
        let density = SaltWaterDensity { chlorides }.value();
        let salt = share * density - 1000.0;
        // The correlation keeps the mass within 5 % of the salt.
        assert!(close(salt, share * chlorides * 58.44 / 35.45, 0.05), "{chlorides} {salt}");
    }
}

/// Darcy's law at every moment: the rate is what the pressure drives through the cake of that moment.
#[test]
fn law_filtrate_obeys_darcy() {
    let (area, permeability, pressure_difference, viscosity) = (PRESS_AREA, 1e-18, PRESS_PRESSURE, 1e-3);
    let (cake_solids, mud_solids) = (0.4, 0.08);
    let filtrate = |duration| {
        FiltrateThroughCake { area, permeability, pressure_difference, cake_solids, mud_solids, duration, viscosity }.value()
    };
    for duration in [60.0, 1800.0, 1e5] {
        let step = 1e-4 * duration;
        let rate = (filtrate(duration + step) - filtrate(duration - step)) / (2.0 * step);
        let thickness = CakeThickness { filtrate: filtrate(duration), area, cake_solids, mud_solids }.value();
        assert!(close(rate, permeability * area * pressure_difference / (viscosity * thickness), 1e-6));
        let back = CakePermeability {
            filtrate: filtrate(duration),
            cake_thickness: thickness,
            viscosity,
            area,
            pressure_difference,
            duration,
        };
        assert!(close(back.value(), permeability, 1e-12));
        // Scaling from half an hour gives the same.
        let scaled = FiltrateAtConditions {
            filtrate_1: filtrate(1800.0),
            pressure_1: pressure_difference,
            duration_1: 1800.0,
            viscosity_1: viscosity,
            pressure_2: pressure_difference,
            duration_2: duration,
            viscosity_2: viscosity,
        };
        assert!(close(scaled.value(), filtrate(duration), 1e-12));
    }
}

/// Spurt and rate are found again from two readings.
#[test]
fn law_spurt_is_found_again() {
    let at = |duration: f64| 2e-6 + 3e-7 * duration.sqrt();
    let (duration_1, duration_2) = (60.0, 450.0);
    let spurt_loss = SpurtLoss { filtrate_1: at(duration_1), duration_1, filtrate_2: at(duration_2), duration_2 }.value();
    assert!(close(spurt_loss, 2e-6, 1e-9));
    let late = FiltrateAtTime { spurt_loss, filtrate_1: at(duration_2), duration_1: duration_2, duration: 1800.0 }.value();
    assert!(close(late, at(1800.0), 1e-9));
}
