//! SI to text, in the unit and with the digits that the trade uses for each kind of quantity.
//!
//! [`show`] is for reading, [`show_exact`] for following with a calculator, [`show_up`] and [`show_down`]
//! for papers, where a demand is rounded up and a limit down. All of it can be read back by [`crate::parse`].

use crate::{Kind, Unit, table::TABLE};
use std::fmt;
use std::str::FromStr;

/// A system of units for results.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum System {
    /// US field units: ft, in, ppg, psi, gpm, klbf.
    #[default]
    Field,
    /// m, mm, sg, bar, L/min, t.
    Metric,
    /// m, mm, kg/m3, kPa, m3/min, daN.
    Canadian,
}

impl System {
    /// Every system.
    pub const ALL: [System; 3] = [System::Field, System::Metric, System::Canadian];

    /// The word for it: `field`, `metric` or `canadian`.
    pub const fn name(self) -> &'static str {
        match self {
            System::Field => "field",
            System::Metric => "metric",
            System::Canadian => "canadian",
        }
    }
}

impl fmt::Display for System {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.name())
    }
}

/// A word that names no system of units.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnknownSystem(
    /// The word.
    pub String,
);

impl fmt::Display for UnknownSystem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "`{}` is not a system of units: write `field`, `metric` or `canadian`", self.0)
    }
}

impl std::error::Error for UnknownSystem {}

impl FromStr for System {
    type Err = UnknownSystem;

    fn from_str(text: &str) -> Result<System, UnknownSystem> {
        System::ALL.into_iter().find(|system| system.name() == text).ok_or_else(|| UnknownSystem(text.to_owned()))
    }
}

/// The unit in which a system shows a kind.
pub fn unit(kind: Kind, system: System) -> &'static Unit {
    shown(kind, system).unit
}

/// A value with its unit and the usual digits: `3636 psi`, `12 1/4 in`, `10,350 ft`.
///
/// Times take the unit that suits their length: `45 s`, `20 min`, `6.5 h`, `4.0 d`.
///
/// ```
/// use rigwright_units::{Kind, System, show};
/// assert_eq!(show(0.31115, Kind::Diameter, System::Field), "12 1/4 in");
/// assert_eq!(show(1200.0, Kind::Density, System::Metric), "1.20 sg");
/// ```
pub fn show(value: f64, kind: Kind, system: System) -> String {
    show_rounded(value, kind, system, Rounding::Nearest)
}

/// As [`show`], never less than the value: for demands on paper.
pub fn show_up(value: f64, kind: Kind, system: System) -> String {
    show_rounded(value, kind, system, Rounding::Up)
}

/// As [`show`], never more than the value: for limits on paper.
pub fn show_down(value: f64, kind: Kind, system: System) -> String {
    show_rounded(value, kind, system, Rounding::Down)
}

/// The figure of [`show`] without a unit, in the unit that [`fn@unit`] names for every kind: for columns under one heading.
pub fn show_number(value: f64, kind: Kind, system: System) -> String {
    let Shown { unit, digits } = shown(kind, system);
    figure(unit.from_si(value), *digits, Rounding::Nearest)
}

/// A value with seven significant digits, for workings that somebody follows with a calculator.
///
/// ```
/// use rigwright_units::{Kind, System, show_exact};
/// assert_eq!(show_exact(0.31115, Kind::Diameter, System::Field), "12.25 in");
/// ```
pub fn show_exact(value: f64, kind: Kind, system: System) -> String {
    let unit = unit(kind, system);
    with_unit(figure(unit.from_si(value), Digits::Significant(7), Rounding::Nearest), unit)
}

/// As [`show_exact`] in a given unit.
pub fn show_exact_in(value: f64, unit: &Unit) -> String {
    with_unit(figure(unit.from_si(value), Digits::Significant(7), Rounding::Nearest), unit)
}

#[derive(Clone, Copy)]
enum Rounding {
    Nearest,
    Up,
    Down,
}

/// How many digits a figure gets.
#[derive(Clone, Copy)]
enum Digits {
    /// So many behind the point.
    Decimals(usize),
    /// So many in all, without trailing noughts; a whole part is never cut.
    Significant(usize),
    /// Halves to 32nds where the figure is one, else three decimals.
    Inches,
}

#[derive(Clone, Copy)]
struct Shown {
    unit: &'static Unit,
    digits: Digits,
}

fn show_rounded(value: f64, kind: Kind, system: System, rounding: Rounding) -> String {
    let Shown { unit, digits } = if kind == Kind::Time { time(value) } else { shown(kind, system) };
    with_unit(figure(unit.from_si(value), *digits, rounding), unit)
}

fn with_unit(mut figure: String, unit: &Unit) -> String {
    if !unit.symbol.is_empty() {
        figure.push(' ');
        figure.push_str(unit.symbol);
    }
    figure
}

/// Beyond this a figure is printed with an exponent.
const LONG: f64 = 1e12;

fn figure(x: f64, digits: Digits, rounding: Rounding) -> String {
    if !x.is_finite() {
        return format!("{x}");
    }
    match digits {
        Digits::Inches => inches(x).unwrap_or_else(|| figure(x, Digits::Decimals(3), rounding)),
        Digits::Decimals(_) if x.abs() >= LONG => scientific(x, 7, rounding),
        Digits::Decimals(decimals) => grouped(fixed(x, decimals, rounding)),
        Digits::Significant(_) if x == 0.0 => "0".to_owned(),
        Digits::Significant(digits) if !(1e-4..LONG).contains(&x.abs()) => scientific(x, digits, rounding),
        Digits::Significant(digits) => {
            let last_place = digits as i32 - 1 - mantissa_and_exponent(x).1;
            grouped(trimmed(fixed(x, last_place.max(0) as usize, rounding)))
        }
    }
}

/// Rounds to whole numbers. Binary noise, a thousandth of a step at most, does not turn a step.
fn rounded(x: f64, rounding: Rounding) -> f64 {
    let noise = (1e-9 * x.abs().max(1.0)).min(1e-3);
    let whole = match rounding {
        Rounding::Nearest => (x.abs() + noise).round().copysign(x),
        Rounding::Up => (x - noise).ceil(),
        Rounding::Down => (x + noise).floor(),
    };
    // No minus before a nought.
    if whole == 0.0 { 0.0 } else { whole }
}

fn fixed(x: f64, decimals: usize, rounding: Rounding) -> String {
    let step = (0..decimals).fold(1.0, |step, _| step * 10.0);
    format!("{:.*}", decimals, rounded(x * step, rounding) / step)
}

fn scientific(x: f64, digits: usize, rounding: Rounding) -> String {
    let (mantissa, exponent) = mantissa_and_exponent(x);
    match trimmed(fixed(mantissa, digits.saturating_sub(1), rounding)).as_str() {
        "10" => format!("1e{}", exponent + 1),
        "-10" => format!("-1e{}", exponent + 1),
        text => format!("{text}e{exponent}"),
    }
}

/// `x = mantissa * 10^exponent` with one digit before the point, by way of text because that is exact for
/// the smallest numbers too.
fn mantissa_and_exponent(x: f64) -> (f64, i32) {
    let text = format!("{x:e}");
    let parts = text.split_once('e').and_then(|(mantissa, exponent)| Some((mantissa.parse().ok()?, exponent.parse().ok()?)));
    parts.unwrap_or((x, 0))
}

fn trimmed(figure: String) -> String {
    match figure.contains('.') {
        true => figure.trim_end_matches('0').trim_end_matches('.').to_owned(),
        false => figure,
    }
}

/// Commas between groups of three in whole numbers of five digits or more.
fn grouped(figure: String) -> String {
    let digits = figure.trim_start_matches('-').len();
    if figure.contains('.') || digits < 5 {
        return figure;
    }
    let mut out = String::with_capacity(figure.len() + digits / 3);
    for (index, c) in figure.chars().enumerate() {
        let left = figure.len() - index;
        if c.is_ascii_digit() && left.is_multiple_of(3) && out.ends_with(|c: char| c.is_ascii_digit()) {
            out.push(',');
        }
        out.push(c);
    }
    out
}

/// Inches as a fraction, when within a millionth of an inch and not too long to be one.
fn inches(x: f64) -> Option<String> {
    let parts = (x.abs() * 32.0).round();
    if parts > 1e5 || (x.abs() - parts / 32.0).abs() > 1e-6 {
        return None;
    }
    let (whole, mut above, mut below) = ((parts / 32.0).floor(), parts % 32.0, 32.0);
    while above > 0.0 && above % 2.0 == 0.0 {
        above /= 2.0;
        below /= 2.0;
    }
    let sign = if x < 0.0 && parts > 0.0 { "-" } else { "" };
    Some(match (whole > 0.0, above > 0.0) {
        (true, true) => format!("{sign}{whole} {above}/{below}"),
        (false, true) => format!("{sign}{above}/{below}"),
        (_, false) => format!("{sign}{whole}"),
    })
}

/// The row of the table with this symbol for this kind; a symbol that the table lacks does not compile.
const fn row(kind: Kind, symbol: &str) -> &'static Unit {
    let mut index = 0;
    while index < TABLE.len() {
        let unit = &TABLE[index];
        let mut at = 0;
        while at < unit.kinds.len() {
            if unit.kinds[at] as usize == kind as usize && same(unit.symbol.as_bytes(), symbol.as_bytes()) {
                return unit;
            }
            at += 1;
        }
        index += 1;
    }
    panic!("the table has no such unit of this kind")
}

const fn same(a: &[u8], b: &[u8]) -> bool {
    let mut index = 0;
    while index < a.len() && index < b.len() && a[index] == b[index] {
        index += 1;
    }
    index == a.len() && index == b.len()
}

static SHOWN: [[Shown; 3]; Kind::ALL.len()] = {
    let mut all = [usual(Kind::Depth); Kind::ALL.len()];
    let mut index = 0;
    while index < all.len() {
        all[index] = usual(Kind::ALL[index]);
        index += 1;
    }
    all
};

fn shown(kind: Kind, system: System) -> &'static Shown {
    &SHOWN[kind as usize][system as usize]
}

fn time(seconds: f64) -> &'static Shown {
    static TIMES: [Shown; 4] = [
        Shown { unit: row(Kind::Time, "s"), digits: Digits::Decimals(0) },
        Shown { unit: row(Kind::Time, "min"), digits: Digits::Decimals(1) },
        Shown { unit: row(Kind::Time, "h"), digits: Digits::Decimals(1) },
        Shown { unit: row(Kind::Time, "d"), digits: Digits::Decimals(1) },
    ];
    let [s, min, h, d] = &TIMES;
    match seconds.abs() {
        size if size < 120.0 => s,
        size if size < 3.0 * 3600.0 => min,
        size if size < 72.0 * 3600.0 => h,
        _ => d,
    }
}

/// Unit and digits of a kind in the three systems.
const fn usual(kind: Kind) -> [Shown; 3] {
    use Digits::{Decimals, Inches, Significant};
    let [field, metric, canadian] = match kind {
        Kind::Depth => [("ft", Decimals(0)), ("m", Decimals(1)), ("m", Decimals(1))],
        Kind::Diameter => [("in", Inches), ("mm", Decimals(1)), ("mm", Decimals(1))],
        Kind::Roughness => [("in", Significant(3)), ("mm", Significant(3)), ("mm", Significant(3))],
        Kind::Area => [("in2", Decimals(3)), ("mm2", Decimals(0)), ("mm2", Decimals(0))],
        Kind::Volume => [("bbl", Decimals(1)), ("m3", Decimals(2)), ("m3", Decimals(2))],
        Kind::FluidVolume => [("gal", Decimals(1)), ("L", Decimals(1)), ("L", Decimals(1))],
        Kind::VolumePerStroke => [("bbl/stk", Decimals(4)), ("L/stk", Decimals(2)), ("L/stk", Decimals(2))],
        Kind::VolumePerLength => [("bbl/ft", Decimals(5)), ("L/m", Decimals(3)), ("m3/m", Decimals(5))],
        Kind::SectionModulus => [("in3", Decimals(2)), ("cm3", Decimals(1)), ("cm3", Decimals(1))],
        Kind::SecondMoment => [("in4", Decimals(2)), ("cm4", Decimals(1)), ("cm4", Decimals(1))],
        Kind::Density => [("ppg", Decimals(2)), ("sg", Decimals(2)), ("kg/m3", Decimals(0))],
        Kind::Pressure => [("psi", Decimals(0)), ("bar", Decimals(1)), ("kPa", Decimals(0))],
        Kind::AbsolutePressure => [("psi abs", Decimals(0)), ("bar abs", Decimals(1)), ("kPa abs", Decimals(0))],
        Kind::PressureGradient => [("psi/ft", Decimals(4)), ("bar/m", Decimals(4)), ("kPa/m", Decimals(3))],
        Kind::Stress => [("psi", Decimals(0)), ("MPa", Decimals(1)), ("MPa", Decimals(1))],
        Kind::ShearStress => [("lb/100 ft2", Decimals(1)), ("Pa", Decimals(2)), ("Pa", Decimals(2))],
        Kind::ShearRate => [("1/s", Decimals(1)); 3],
        Kind::Viscosity => [("cP", Decimals(1)), ("cP", Decimals(1)), ("mPa.s", Decimals(1))],
        Kind::Consistency => [("lb.s^n/100 ft2", Decimals(3)), ("Pa.s^n", Decimals(3)), ("Pa.s^n", Decimals(3))],
        Kind::Force => [("klbf", Decimals(1)), ("t", Decimals(1)), ("daN", Decimals(0))],
        Kind::ForcePerLength => [("lbf/ft", Decimals(1)), ("N/m", Decimals(0)), ("N/m", Decimals(0))],
        Kind::LinearMass => [("lb/ft", Decimals(2)), ("kg/m", Decimals(2)), ("kg/m", Decimals(2))],
        Kind::Mass => [("lb", Decimals(0)), ("kg", Decimals(0)), ("kg", Decimals(0))],
        Kind::Torque => [("kft-lbf", Decimals(1)), ("kN.m", Decimals(1)), ("kN.m", Decimals(1))],
        Kind::Power => [("hp", Decimals(0)), ("kW", Decimals(0)), ("kW", Decimals(0))],
        Kind::PowerPerArea => [("hp/in2", Decimals(2)), ("W/mm2", Decimals(2)), ("W/mm2", Decimals(2))],
        Kind::LineWork => [("ton-mile", Decimals(1)), ("t-km", Decimals(1)), ("t-km", Decimals(1))],
        Kind::WorkPerLength => [("ton-mile/ft", Decimals(2)), ("t-km/m", Decimals(2)), ("t-km/m", Decimals(2))],
        Kind::Energy => [("kWh", Decimals(1)); 3],
        Kind::FlowRate => [("gpm", Decimals(0)), ("L/min", Decimals(0)), ("m3/min", Decimals(3))],
        Kind::FuelRate => [("gal/h", Decimals(1)), ("L/h", Decimals(1)), ("L/h", Decimals(1))],
        Kind::GasRate => [("MMscf/d", Decimals(2)), ("m3/d", Decimals(0)), ("m3/d", Decimals(0))],
        Kind::Speed => [("ft/min", Decimals(1)), ("m/min", Decimals(1)), ("m/min", Decimals(1))],
        Kind::JetSpeed => [("ft/s", Decimals(0)), ("m/s", Decimals(0)), ("m/s", Decimals(0))],
        Kind::DrillingRate => [("ft/h", Decimals(1)), ("m/h", Decimals(1)), ("m/h", Decimals(1))],
        // As the hydrostatic constant of each system, so that weight times depth times this is pressure.
        Kind::Acceleration => [("psi/ft/ppg", Significant(6)), ("bar/m/sg", Significant(6)), ("kPa/m/(kg/m3)", Significant(6))],
        Kind::RotarySpeed => [("rpm", Decimals(0)); 3],
        Kind::StrokeRate => [("spm", Decimals(0)); 3],
        Kind::Angle => [("deg", Decimals(2)); 3],
        Kind::Curvature => [("deg/100 ft", Decimals(2)), ("deg/30 m", Decimals(2)), ("deg/30 m", Decimals(2))],
        Kind::Time => [("min", Decimals(1)); 3],
        Kind::Temperature => [("°F", Decimals(0)), ("°C", Decimals(1)), ("°C", Decimals(1))],
        Kind::TemperatureChange => [("°F", Decimals(1)), ("°C", Decimals(1)), ("°C", Decimals(1))],
        Kind::TemperatureGradient => [("°F/100 ft", Decimals(2)), ("°C/100 m", Decimals(2)), ("°C/100 m", Decimals(2))],
        Kind::Expansion => [("1/°F", Significant(4)), ("1/°C", Significant(4)), ("1/°C", Significant(4))],
        Kind::Compressibility => [("1/psi", Significant(4)), ("1/bar", Significant(4)), ("1/kPa", Significant(4))],
        Kind::MolarMass => [("g/mol", Decimals(2)); 3],
        Kind::SpecificHeat => [("Btu/(lb.°F)", Significant(4)), ("J/(kg.K)", Significant(4)), ("J/(kg.K)", Significant(4))],
        Kind::Conductivity => [("Btu/(h.ft.°F)", Significant(4)), ("W/(m.K)", Significant(4)), ("W/(m.K)", Significant(4))],
        Kind::HeatTransfer => [("Btu/(h.ft2.°F)", Significant(4)), ("W/(m2.K)", Significant(4)), ("W/(m2.K)", Significant(4))],
        Kind::HeatingValue => [("Btu/lb", Decimals(0)), ("MJ/kg", Decimals(2)), ("MJ/kg", Decimals(2))],
        Kind::ApparentPower => [("kVA", Decimals(0)); 3],
        Kind::Permeability => [("mD", Significant(4)); 3],
        Kind::MassFlow => [("lb/min", Decimals(1)), ("kg/min", Decimals(1)), ("kg/min", Decimals(1))],
        Kind::Filtrate => [("mL", Decimals(1)); 3],
        Kind::Cost => [("", Decimals(0)); 3],
        Kind::PricePerMass => [("per t", Decimals(2)); 3],
        Kind::PricePerVolume => [("per bbl", Decimals(2)), ("per m3", Decimals(2)), ("per m3", Decimals(2))],
        Kind::Fraction => [("%", Decimals(1)); 3],
        Kind::Ratio => [("", Significant(4)); 3],
        Kind::Count => [("", Decimals(0)); 3],
        Kind::Dial => [("", Significant(3)); 3],
    };
    [one(kind, field), one(kind, metric), one(kind, canadian)]
}

const fn one(kind: Kind, shown: (&str, Digits)) -> Shown {
    Shown { unit: row(kind, shown.0), digits: shown.1 }
}
