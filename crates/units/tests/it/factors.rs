//! The table of units against published conversion factors and the trade's constants.

use rigwright_units::{Dimension, Kind, TABLE, UnitError, find_unit, last_digit, parse, unit_named, units_of};

fn read(text: &str, kind: Kind) -> f64 {
    parse(text, kind).unwrap_or_else(|error| panic!("{text}: {error}"))
}

/// The number printed in a source, with half a step of its last digit as the only tolerance.
fn assert_printed(text: &str, kind: Kind, printed: &str, printed_kind: Kind) {
    let (value, expected) = (read(text, kind), read(printed, printed_kind));
    let half_step = last_digit(printed, printed_kind).map_or(0.0, |step| step / 2.0);
    assert!((value - expected).abs() <= half_step * (1.0 + 1e-9), "{text} is {value}, printed {printed}");
}

/// Factors of NIST SP 811 (2008), appendix B.8, seven digits as printed there, from memory.
#[test]
fn published_nist_sp_811_factors() {
    let cases = [
        ("1 ft", Kind::Depth, "0.3048"),
        ("1 in", Kind::Diameter, "0.0254"),
        ("1 mile", Kind::Depth, "1609.344"),
        ("1 in2", Kind::Area, "0.00064516"),
        ("1 ft2", Kind::Area, "0.09290304"),
        ("1 in3", Kind::FluidVolume, "1.638706e-5"),
        ("1 ft3", Kind::Volume, "0.02831685"),
        ("1 gal", Kind::Volume, "3.785412e-3"),
        ("1 bbl", Kind::Volume, "0.1589873"),
        ("1 in3", Kind::SectionModulus, "1.638706e-5"),
        ("1 in4", Kind::SecondMoment, "4.162314e-7"),
        ("1 lb", Kind::Mass, "0.4535924"),
        ("1 short ton", Kind::Mass, "907.1847"),
        ("1 lb/ft", Kind::LinearMass, "1.488164"),
        ("1 ppg", Kind::Density, "119.8264"),
        ("1 lb/ft3", Kind::Density, "16.01846"),
        ("1 lbf", Kind::Force, "4.448222"),
        ("1 kip", Kind::Force, "4448.222"),
        ("1 kgf", Kind::Force, "9.80665"),
        ("1 lbf/ft", Kind::ForcePerLength, "14.59390"),
        ("1 lbf/in", Kind::ForcePerLength, "175.1268"),
        ("1 psi", Kind::Pressure, "6894.757"),
        ("1 ksi", Kind::Stress, "6894757"),
        ("1 lbf/ft2", Kind::ShearStress, "47.88026"),
        ("1 dyn/cm2", Kind::ShearStress, "0.1"),
        ("1 kgf/cm2", Kind::Pressure, "98066.5"),
        ("1 atm", Kind::AbsolutePressure, "101325"),
        ("1 cP", Kind::Viscosity, "0.001"),
        ("1 lbf.s/ft2", Kind::Viscosity, "47.88026"),
        ("1 ft-lbf", Kind::Torque, "1.355818"),
        ("1 in-lbf", Kind::Torque, "0.1129848"),
        ("1 hp", Kind::Power, "745.6999"),
        ("1 ft-lbf/min", Kind::Power, "0.02259697"),
        ("1 Btu/h", Kind::Power, "0.2930711"),
        ("1 Btu", Kind::Energy, "1055.056"),
        ("1 kWh", Kind::Energy, "3600000"),
        ("1 gpm", Kind::FlowRate, "6.309020e-5"),
        ("1 ft3/min", Kind::FlowRate, "4.719474e-4"),
        ("1 ft/min", Kind::Speed, "0.00508"),
        ("1 ft/h", Kind::DrillingRate, "8.466667e-5"),
        ("1 rpm", Kind::RotarySpeed, "0.1047198"),
        ("1 deg", Kind::Angle, "0.01745329"),
        ("1 lb/min", Kind::MassFlow, "7.559873e-3"),
        ("1 lb/h", Kind::MassFlow, "1.259979e-4"),
        // The other way round of 0.4535924 kg and 0.1589873 m³, printed there.
        ("1 per lb", Kind::PricePerMass, "2.204623"),
        ("1 per bbl", Kind::PricePerVolume, "6.289811"),
        ("1 Btu/(lb.degF)", Kind::SpecificHeat, "4186.8"),
        ("1 Btu/(h.ft.degF)", Kind::Conductivity, "1.730735"),
        ("1 Btu/(h.ft2.degF)", Kind::HeatTransfer, "5.678263"),
        ("1 Btu/lb", Kind::HeatingValue, "2326"),
        ("1 D", Kind::Permeability, "9.869233e-13"),
        ("1 1/degF", Kind::Expansion, "1.8"),
        ("1 ft/s2", Kind::Acceleration, "0.3048"),
    ];
    for (text, kind, printed) in cases {
        assert_printed(text, kind, printed, Kind::Ratio);
    }
}

/// Fixed points of the thermometer scales: ice 32 °F, steam 212 °F, and the scales' crossing at -40.
#[test]
fn published_thermometer_scales() {
    for (text, kelvin) in
        [("32 degF", 273.15), ("212 °F", 373.15), ("0 degC", 273.15), ("-459.67 degF", 0.0), ("491.67 degR", 273.15)]
    {
        assert!((read(text, Kind::Temperature) - kelvin).abs() < 1e-10, "{text}");
    }
    let [celsius, fahrenheit] = ["-40 °C", "-40 °F"].map(|text| read(text, Kind::Temperature));
    assert!((celsius - fahrenheit).abs() < 1e-10);
    // A difference has no zero of its own: a rise of 9 degF is one of 5 kelvin.
    assert!((read("9 degF", Kind::TemperatureChange) - 5.0).abs() < 1e-12);
    let [per_100_ft, per_km] = ["1 degF/100 ft", "1 degC/km"].map(|text| read(text, Kind::TemperatureGradient));
    assert!((per_100_ft / per_km - 1000.0 / 30.48 / 1.8).abs() < 1e-12);
}

/// The constants that the trade writes into its formulas, as exact ratios of the definitions
/// (inch, gallon of 231 cubic inches, barrel of 42 gallons, horsepower of 550 ft·lbf/s).
#[test]
fn law_trade_constants_follow_from_definitions() {
    use std::f64::consts::PI;
    let si = read;
    let near = |found: f64, exact: f64| assert!((found / exact - 1.0).abs() < 1e-13, "{found} is not {exact}");
    let gravity = si("9.80665 m/s2", Kind::Acceleration);
    let foot = si("1 ft", Kind::Depth);
    let inch = si("1 in", Kind::Diameter);
    let psi = si("1 psi", Kind::Pressure);
    let ppg = si("1 ppg", Kind::Density);
    let gpm = si("1 gpm", Kind::FlowRate);
    let ft_min = si("1 ft/min", Kind::Speed);
    near(ppg * gravity * foot / psi, 12.0 / 231.0);
    near(si("10 ppg", Kind::Density) * gravity * si("7,000 ft", Kind::Depth) / psi, 10.0 * 7000.0 * 12.0 / 231.0);
    near(si("1 lb/ft3", Kind::Density) * gravity * foot / psi, 1.0 / 144.0);
    near(si("1 bbl/ft", Kind::VolumePerLength) / (PI / 4.0 * inch * inch), 4.0 * 9702.0 / (12.0 * PI));
    near(gpm / (PI / 4.0 * inch * inch) / ft_min, 231.0 * 4.0 / (12.0 * PI));
    near(si("1 hp", Kind::Power) / (psi * gpm), 33_000.0 * 12.0 / 231.0);
    near(4.0 * si("1 lb/100 ft2", Kind::ShearStress) / inch / (psi / foot), 1.0 / 300.0);
    near(si("1 bbl", Kind::Volume) / si("1 in3", Kind::FluidVolume), 9702.0);
    near(si("1 bar", Kind::Pressure) / (si("1 sg", Kind::Density) * gravity), 10.0 / 0.980_665);
    near(si("1 psi/ft/ppg", Kind::Acceleration) * 12.0 / 231.0, gravity);
    near(si("1 bar/m/sg", Kind::Acceleration) * 0.098_066_5, gravity);
    near(si("1 kPa/m/(kg/m3)", Kind::Acceleration) * 0.009_806_65, gravity);
    near(si("1 lbf/lb", Kind::Acceleration), gravity);
    near(si("1 ton-mile", Kind::LineWork), 2000.0 * si("1 lbf", Kind::Force) * 5280.0 * foot);
    near(si("1 t-km", Kind::LineWork), si("1 t", Kind::Force) * 1000.0);
    near(si("16 32nd", Kind::Diameter), si("1/2 in", Kind::Diameter));
    near(si("1 eq cP", Kind::Consistency) * 478.802_589_803_358_4, si("1 lb.s^n/100 ft2", Kind::Consistency));
    near(si("1 deg/100 ft", Kind::Curvature) / si("1 deg/30 m", Kind::Curvature), 30.0 / 30.48);
}

/// The constants as the trade prints them. The first two are rounded up and down too far:
/// the exact values above are 0.051948 and 1714.29.
#[test]
fn published_trade_constants() {
    let constant = read("0.052 psi/ft/ppg", Kind::Acceleration);
    let pressure = read("13.5 ppg", Kind::Density) * constant * read("12,000 ft", Kind::Depth);
    assert!((pressure / read("8424 psi", Kind::Pressure) - 1.0).abs() < 1e-12, "0.052 x 13.5 x 12,000");
    assert_printed("1 bbl", Kind::Volume, "0.158987295 m3", Kind::Volume);
    assert_printed("1 bbl", Kind::Volume, "5.614583 ft3", Kind::Volume);
    assert_printed("1 psi", Kind::Pressure, "6.894757293 kPa", Kind::Pressure);
    assert_printed("1 atm", Kind::AbsolutePressure, "14.695949 psi abs", Kind::AbsolutePressure);
    assert_printed("1 ppg", Kind::Density, "119.826427 kg/m3", Kind::Density);
    assert_printed("1 lb/100 ft2", Kind::ShearStress, "0.4788026 Pa", Kind::ShearStress);
}

#[test]
fn law_every_unit_keeps_the_dimension_of_its_kinds() {
    for unit in TABLE {
        let dimensions: Vec<Dimension> = unit.kinds.iter().map(|kind| kind.dimension()).collect();
        assert!(dimensions.windows(2).all(|pair| pair[0] == pair[1]), "{unit:?}");
        assert!(unit.factor.is_finite() && unit.factor > 0.0 && !unit.source.is_empty(), "{unit:?}");
    }
}

/// A text must never be readable as two units of one kind.
#[test]
fn law_no_spelling_names_two_units_of_a_kind() {
    for kind in Kind::ALL {
        for unit in units_of(*kind) {
            for text in unit.spellings.iter().chain([&unit.symbol]) {
                let named: Vec<_> = units_of(*kind).filter(|other| other.is_spelt(text)).map(|other| other.symbol).collect();
                assert_eq!(named, [unit.symbol], "`{text}` of {}", kind.name());
            }
        }
    }
}

/// The index of spellings finds what a comparison with each row finds, for every spelling of the table, for variants of it
/// and for texts that are no unit of anything.
#[test]
fn law_a_unit_is_found_by_name_as_row_by_row() {
    let spelt = TABLE.iter().flat_map(|unit| unit.spellings.iter().chain([&unit.symbol]));
    let mut texts: Vec<String> =
        ["-", " - ", ".", "--", "^()", "°", "²", "ton", "F", "7", "7 ft", "in 3", "PPG", "é"].map(String::from).into();
    for text in spelt {
        let changed = [text.replace('2', "²").replace('3', "^3"), text.to_uppercase(), format!("{text}x"), format!(" -{text}. ")];
        texts.extend([text.to_string()].into_iter().chain(changed));
    }
    for kind in Kind::ALL {
        for text in &texts {
            let row = units_of(*kind).find(|unit| unit.is_spelt(text));
            assert_eq!(unit_named(text, *kind), row, "`{text}` of {}", kind.name());
            assert_eq!(find_unit(text, *kind).ok(), row, "`{text}` of {}", kind.name());
            if let Err(UnitError::WrongKind { is, .. }) = find_unit(text, *kind) {
                assert_eq!(Some(is), TABLE.iter().find(|unit| unit.is_spelt(text)).map(|unit| unit.kinds), "`{text}`");
            }
        }
    }
}

/// The SI unit that every kind names is in the table, and is worth one.
#[test]
fn law_the_si_unit_of_a_kind_is_one() {
    for kind in Kind::ALL {
        let si = match kind.si_unit() {
            "-" => "",
            "Pa" if *kind == Kind::AbsolutePressure => "Pa abs",
            other => other,
        };
        let per = match kind {
            Kind::VolumePerStroke => "/stk",
            _ => "",
        };
        assert_eq!(parse(&format!("1 {si}{per}"), *kind), Ok(1.0), "{}", kind.name());
    }
}
