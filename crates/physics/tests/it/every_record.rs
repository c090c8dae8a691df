//! What every formula must do, whatever it is: stay finite inside its must-ranges, and rescale as its
//! dimensions say when it claims to be true in any units.

use std::cell::Cell;

use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use rigwright_physics::{FormulaRecord, Kind, Law, Range, Symbol, records};

/// The same numbers in every run.
fn runner(cases: u32) -> TestRunner {
    let config = Config { cases, max_global_rejects: 100_000, failure_persistence: None, ..Config::default() };
    TestRunner::new_with_rng(config, TestRng::deterministic_rng(RngAlgorithm::ChaCha))
}

/// The failures of all records together, so that one run shows them all.
fn for_every_record(holds: impl Fn(&'static FormulaRecord) -> Result<(), String>) {
    let mut failures = Vec::new();
    for record in records() {
        if let Err(why) = holds(record) {
            failures.push(format!("{} ({}): {why}", record.slug, record.module));
        }
    }
    assert!(failures.is_empty(), "{} formulas fail:\n{}", failures.len(), failures.join("\n"));
}

/// Values that break formulas, as far as the must-range lets them through.
fn extreme(must: Range) -> BoxedStrategy<f64> {
    let sizes = [0.0, 1e-9, 1e-3, 0.5, 1.0, 1.0 + 1e-9, 2.0, std::f64::consts::FRAC_PI_2, std::f64::consts::PI, 273.15, 1e3, 1e9];
    let ends = [must.low, must.high].into_iter().filter(|end| end.is_finite());
    let near = ends.flat_map(|end| [end, end.next_up(), end.next_down(), end * (1.0 + 1e-9), end * (1.0 - 1e-9)]);
    let fixed = sizes.into_iter().flat_map(|size| [size, -size]).chain(near);
    // Nobody states a subnormal number, and dividing by one overflows without telling anything of the formula.
    let told = fixed.filter(|value| *value == 0.0 || value.is_normal());
    let allowed: Vec<f64> = told.filter(|value| must.contains(*value)).collect();
    let log_uniform = (-9.0..9.0, any::<bool>()).prop_map(|(power, negative)| {
        let size = 10f64.powf(power);
        if negative { -size } else { size }
    });
    let (low, high) = (must.low.max(-1e9), must.high.min(1e9));
    let inside =
        log_uniform.prop_map(move |value| if must.contains(value) { value } else { low + (high - low) * value.abs().fract() });
    let inside = inside.prop_filter("inside the must-range", move |value| must.contains(*value));
    prop_oneof![2 => proptest::sample::select(allowed), 1 => inside].boxed()
}

#[test]
fn law_every_formula_is_finite_inside_its_must_ranges() {
    for_every_record(stays_finite);
}

fn stays_finite(record: &'static FormulaRecord) -> Result<(), String> {
    let inputs: Vec<_> = record.symbols.iter().map(|symbol| extreme(symbol.must)).collect();
    let result = runner(2000).run(&inputs, |inputs| {
        let value = (record.from_keys)(&inputs);
        prop_assert!(value.is_finite(), "gives {value} for {}", named(record, &inputs));
        Ok(())
    });
    result.map_err(|error| error.to_string())
}

/// By how much mass, length, time and temperature are multiplied.
#[derive(Clone, Copy, Debug)]
struct Scale {
    mass: f64,
    length: f64,
    time: f64,
    temperature: f64,
}

impl Scale {
    /// How a value of this kind changes; `flow_index` is the exponent hidden in a consistency index.
    fn factor(self, kind: Kind, flow_index: f64) -> f64 {
        let dimension = kind.dimension();
        let time = if kind == Kind::Consistency { flow_index - 2.0 } else { f64::from(dimension.time) };
        self.mass.powi(dimension.mass.into())
            * self.length.powi(dimension.length.into())
            * self.time.powf(time)
            * self.temperature.powi(dimension.temperature.into())
    }
}

/// The formula at rescaled inputs, and its result rescaled; `None` where the rescaled inputs are refused.
fn rescaled(record: &FormulaRecord, inputs: &[f64], scale: Scale) -> Option<(f64, f64)> {
    let index = record.symbols.iter().position(|symbol| symbol.key.ends_with("flow_index"));
    let flow_index = index.map_or(1.0, |at| inputs[at]);
    let moved: Vec<f64> =
        record.symbols.iter().zip(inputs).map(|(symbol, value)| value * scale.factor(symbol.kind, flow_index)).collect();
    if !record.outside_must(&moved).is_empty() {
        return None;
    }
    let expected = (record.from_keys)(inputs) * scale.factor(record.result.kind, flow_index);
    Some(((record.from_keys)(&moved), expected))
}

/// Powers of two rescale sums and differences without rounding, so that nothing hides in cancellation.
/// Length and time go apart, so that gravity changes too: a formula that needs it takes it as an input.
fn scales() -> impl Strategy<Value = Scale> {
    (-2..=2, -2..=2, -2..=2, -2..=2).prop_map(|(mass, length, time, temperature)| Scale {
        mass: 2f64.powi(mass),
        length: 2f64.powi(length),
        time: 2f64.powi(time),
        temperature: 2f64.powi(temperature),
    })
}

fn agree(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs().max(b.abs())
}

#[test]
fn law_homogeneous_formulas_rescale() {
    for_every_record(|record| if record.law == Law::Homogeneous { rescales(record) } else { Ok(()) });
}

#[test]
fn law_empirical_formulas_do_not_rescale() {
    for_every_record(|record| if record.law == Law::Homogeneous { Ok(()) } else { does_not_rescale(record) });
}

fn rescales(record: &'static FormulaRecord) -> Result<(), String> {
    let inputs: Vec<_> = record.symbols.iter().map(usual).collect();
    let telling = Cell::new(0);
    let result = runner(400).run(&(inputs, scales()), |(inputs, scale)| {
        let Some((got, expected)) = rescaled(record, &inputs, scale) else { return Ok(()) };
        prop_assert!(agree(got, expected), "{got:e} is not {expected:e} for {} under {scale:?}", named(record, &inputs));
        telling.set(telling.get() + u32::from(got != 0.0));
        Ok(())
    });
    result.map_err(|error| error.to_string())?;
    if telling.get() < 20 { Err("nearly all samples are refused or nought: the law is not tested".into()) } else { Ok(()) }
}

fn does_not_rescale(record: &'static FormulaRecord) -> Result<(), String> {
    let inputs: Vec<_> = record.symbols.iter().map(usual).collect();
    let misses = Cell::new(0);
    let result = runner(200).run(&(inputs, scales()), |(inputs, scale)| {
        if let Some((got, expected)) = rescaled(record, &inputs, scale) {
            misses.set(misses.get() + u32::from(!agree(got, expected)));
        }
        Ok(())
    });
    result.map_err(|error| error.to_string())?;
    if misses.get() == 0 { Err("it rescales: no constant hides a unit, so its law is Homogeneous".into()) } else { Ok(()) }
}

/// Sizes that a rig meets, inside the ranges of the symbol.
fn usual(symbol: &Symbol) -> BoxedStrategy<f64> {
    let (low, high) = size(symbol.kind);
    let (valid, must) = (symbol.valid, symbol.must);
    let end = |own: f64, other: f64, usual: f64| {
        if own.is_finite() {
            own
        } else if other.is_finite() {
            other
        } else {
            usual
        }
    };
    let least = end(valid.low, must.low, if must.contains(-low) { -high } else { low });
    let most = end(valid.high, must.high, least.max(0.0) + high).max(least);
    // Evenly and by powers of ten in turn, so that small values are met as well.
    let share = prop_oneof![(0.0..1.0).boxed(), (-3.0..0.0).prop_map(|power| 10f64.powf(power)).boxed()];
    share
        .prop_map(move |share| least + (most - least) * share)
        .prop_filter("inside the must-range", move |value| must.contains(*value))
        .boxed()
}

fn size(kind: Kind) -> (f64, f64) {
    match kind {
        Kind::Depth => (1.0, 6e3),
        Kind::Diameter => (1e-2, 1.0),
        Kind::Roughness => (1e-6, 1e-3),
        Kind::Area | Kind::VolumePerLength => (1e-3, 1.0),
        Kind::SectionModulus | Kind::SecondMoment => (1e-6, 1e-2),
        Kind::Density => (500.0, 3e3),
        Kind::Pressure | Kind::AbsolutePressure => (1e5, 1e8),
        Kind::Stress => (1e7, 1e9),
        Kind::PressureGradient => (1e3, 3e4),
        Kind::ShearRate => (1.0, 1e3),
        Kind::Viscosity => (1e-3, 1e-1),
        Kind::Force => (1e4, 5e6),
        Kind::ForcePerLength => (1.0, 1e4),
        Kind::Torque => (1e2, 1e5),
        Kind::Power => (1e3, 3e6),
        Kind::LineWork | Kind::Energy | Kind::PowerPerArea => (1e5, 1e9),
        Kind::FlowRate => (1e-3, 1e-1),
        Kind::GasRate => (1e-2, 1e2),
        Kind::FuelRate => (1e-6, 1e-3),
        Kind::VolumePerStroke => (1e-3, 3e-2),
        Kind::DrillingRate => (1e-4, 1e-1),
        Kind::Temperature => (250.0, 500.0),
        Kind::TemperatureChange => (0.1, 50.0),
        Kind::TemperatureGradient => (1e-3, 5e-2),
        Kind::Expansion => (1e-6, 1e-4),
        Kind::Compressibility => (1e-11, 1e-7),
        Kind::MolarMass => (2e-3, 1e-1),
        Kind::SpecificHeat => (500.0, 5e3),
        Kind::Time => (1.0, 1e5),
        Kind::Curvature => (1e-4, 1e-1),
        Kind::Fraction => (0.01, 1.0),
        Kind::Angle => (0.01, 3.0),
        Kind::Count => (1.0, 20.0),
        Kind::Dial => (1.0, 200.0),
        _ => (1e-2, 1e2),
    }
}

fn named(record: &FormulaRecord, inputs: &[f64]) -> String {
    let pairs: Vec<String> =
        record.symbols.iter().zip(inputs).map(|(symbol, value)| format!("{} = {value:e}", symbol.key)).collect();
    pairs.join(", ")
}

/// Formulas that are wrong on purpose: the laws above must find them out.
mod faulty {
    use rigwright_physics::{Formula, formula};

    use super::*;

    formula! {
        /// A column with the trade's constant for pounds, gallons and feet left inside.
        pub struct HiddenUnits;
        slug "hidden-units";
        equation "p = 0.052 ρ h";
        law Homogeneous;
        source "wrong on purpose";
        given {
            /// mud weight
            density "ρ" Density must POSITIVE;
            /// height of the column
            vertical_depth "h" Depth must POSITIVE;
        }
        /// pressure
        gives "p" Pressure;
        value |f| 0.052 * f.density * f.vertical_depth
    }

    formula! {
        /// A speed upside down.
        pub struct UpsideDown;
        slug "upside-down";
        equation "v = t / L";
        law Homogeneous;
        source "wrong on purpose";
        given {
            /// distance
            distance "L" Depth must NON_NEGATIVE;
            /// time
            duration "t" Time must POSITIVE;
        }
        /// speed
        gives "v" Speed;
        value |f| f.duration / f.distance
    }

    #[test]
    fn law_a_faulty_formula_is_found_out() {
        assert!(rescales(HiddenUnits::RECORD).is_err());
        assert!(does_not_rescale(HiddenUnits::RECORD).is_ok());
        assert!(rescales(UpsideDown::RECORD).is_err());
        assert!(stays_finite(UpsideDown::RECORD).is_err(), "a distance of nought divides by nought");
        assert!(stays_finite(HiddenUnits::RECORD).is_ok());
    }

    #[test]
    fn law_a_right_formula_is_let_pass() {
        let right = rigwright_physics::record("hydrostatic-pressure").expect("it exists");
        assert!(stays_finite(right).is_ok() && rescales(right).is_ok());
        assert!(does_not_rescale(right).is_err());
    }
}
