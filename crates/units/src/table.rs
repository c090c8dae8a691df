//! The table of unit symbols: what each is worth in SI, exactly, and which kinds of quantity it may state.
//!
//! Factors are written from definitions, so that nobody has to trust a rounded figure: the inch is
//! 0.0254 m, the US gallon 231 cubic inches, the barrel 42 gallons, the pound 0.453 592 37 kg, the
//! pound-force that mass under standard gravity. Gallons and barrels are US ones throughout. `sg` is taken
//! as exactly 1000 kg/m³; water at 4 °C is 0.003 % lighter, and the trade ignores that.
//!
//! One symbol may have two rows where the trade gives it two meanings: `t` is a tonne-force for a hook
//! load and 1000 kg for barite. No two rows of one kind share a spelling.

use crate::Kind;
use std::collections::HashMap;
use std::f64::consts::PI;
use std::sync::LazyLock;

/// One unit: `SI = (number + offset) * factor`.
#[derive(Debug, PartialEq)]
pub struct Unit {
    /// How it is printed; empty for a bare number.
    pub symbol: &'static str,
    /// Other spellings that are accepted. Dots, hyphens, spaces, brackets and carets do not count, `²`
    /// equals `2` and `°` equals `deg`, so those variants are not listed.
    pub spellings: &'static [&'static str],
    /// The kinds of quantity that it may state.
    pub kinds: &'static [Kind],
    /// SI units in one of this unit.
    pub factor: f64,
    /// Added to the number before the factor; only thermometer scales have one.
    pub offset: f64,
    /// Where the factor comes from.
    pub source: &'static str,
}

impl Unit {
    /// A number in this unit as an SI value.
    pub const fn to_si(&self, number: f64) -> f64 {
        (number + self.offset) * self.factor
    }

    /// An SI value as a number in this unit.
    pub const fn from_si(&self, value: f64) -> f64 {
        value / self.factor - self.offset
    }

    /// A difference in this unit as an SI difference: a thermometer scale keeps its zero out of it.
    pub const fn difference_to_si(&self, number: f64) -> f64 {
        number * self.factor
    }

    /// Whether a text names this unit.
    pub fn is_spelt(&self, text: &str) -> bool {
        if spelling(text).next().is_none() {
            return self.symbol.is_empty() && matches!(text.trim(), "" | "-");
        }
        spelling(self.symbol).eq(spelling(text)) || self.spellings.iter().any(|other| spelling(other).eq(spelling(text)))
    }
}

/// The units that may state a kind, the most usual first.
pub fn units_of(kind: Kind) -> impl Iterator<Item = &'static Unit> {
    of_kind(kind).iter().copied()
}

/// The same as a list.
fn of_kind(kind: Kind) -> &'static [&'static Unit] {
    /// By the number of the kind. Every quantity of a file asks for its unit.
    static BY_KIND: LazyLock<Vec<Vec<&'static Unit>>> = LazyLock::new(|| {
        let of = |kind: &Kind| TABLE.iter().filter(|unit| unit.kinds.contains(kind)).collect();
        Kind::ALL.iter().map(of).collect()
    });
    // Kinds are numbered in the order in which they are listed.
    &BY_KIND[kind as usize]
}

/// The unit of a kind that a text names, if it names one. [`crate::find_unit`] says why not.
pub fn unit_named(text: &str, kind: Kind) -> Option<&'static Unit> {
    // A unit is mostly spelt as the table has it, and no two of a kind share a spelling.
    let units = of_kind(kind);
    let as_listed = units.iter().find(|unit| unit.symbol == text || unit.spellings.contains(&text));
    as_listed.copied().or_else(|| named(text).iter().copied().find(|unit| unit.kinds.contains(&kind)))
}

/// The units of all kinds that a text names, in the order of the table.
pub(crate) fn named(text: &str) -> &'static [&'static Unit] {
    /// Units by what matters of their spellings. Some texts are asked for letter by letter.
    static NAMED: LazyLock<HashMap<String, Vec<&'static Unit>>> = LazyLock::new(|| {
        let mut named: HashMap<String, Vec<&'static Unit>> = HashMap::new();
        for unit in TABLE {
            for text in unit.spellings.iter().chain([&unit.symbol]) {
                let units = named.entry(spelling(text).collect()).or_default();
                if units.last() != Some(&unit) {
                    units.push(unit);
                }
            }
        }
        named
    });
    let text = text.trim();
    let mut plain = String::with_capacity(text.len());
    plain.extend(spelling(text));
    // A dash stands for no unit; other signs that do not count name nothing by themselves.
    if plain.is_empty() && !matches!(text, "" | "-") {
        return &[];
    }
    NAMED.get(&plain).map_or(&[], Vec::as_slice)
}

/// What matters of the spelling of a unit.
pub(crate) fn spelling(text: &str) -> impl Iterator<Item = char> {
    let counts = |c: &char| !c.is_whitespace() && !matches!(c, '.' | '·' | '⋅' | '*' | '-' | '⁻' | '^' | '(' | ')');
    text.chars().filter(counts).flat_map(|c| {
        let plain = match c {
            '¹' => '1',
            '²' => '2',
            '³' => '3',
            '⁴' => '4',
            'ⁿ' => 'n',
            'µ' | 'μ' => 'u',
            '″' | '”' => '"',
            '°' | 'º' => return [Some('d'), Some('e'), Some('g')].into_iter().flatten(),
            other => other,
        };
        [Some(plain), None, None].into_iter().flatten()
    })
}

/// Spellings that mean different things to different people, and what to write instead.
pub(crate) const UNCLEAR: &[(&[&str], &[Kind], &str)] = &[
    (
        &["ton", "tons"],
        &[Kind::Force, Kind::Mass],
        "a ton is 2,000 lb on a US line and 1,000 kg elsewhere; write `short ton` or `t`",
    ),
    (&["F", "C", "R"], &[Kind::Temperature, Kind::TemperatureChange], "write `degF`, `degC` or `degR`"),
    (&["sk", "sack", "sacks"], &[Kind::Mass], "a sack is no fixed mass; write `lb` or `kg`"),
    (&["Mlbf", "Mlb"], &[Kind::Force], "M is a thousand to some and a million to others; write `klbf`"),
    (&["ft/bbl", "m/m3", "m/L"], &[Kind::VolumePerLength], "write the volume of a length, not the length of a volume"),
];

const INCH: f64 = 0.0254;
const FOOT: f64 = 0.3048;
const MILE: f64 = 5280.0 * FOOT;
const INCH2: f64 = INCH * INCH;
const INCH3: f64 = INCH * INCH * INCH;
const FOOT2: f64 = FOOT * FOOT;
const FOOT3: f64 = FOOT * FOOT * FOOT;
const LITRE: f64 = 1e-3;
const GALLON: f64 = 231.0 * INCH3;
const BARREL: f64 = 42.0 * GALLON;
const POUND: f64 = 0.453_592_37;
const GRAVITY: f64 = 9.806_65;
const POUND_FORCE: f64 = POUND * GRAVITY;
const TONNE_FORCE: f64 = 1000.0 * GRAVITY;
const PSI: f64 = POUND_FORCE / INCH2;
const ATMOSPHERE: f64 = 101_325.0;
const FOOT_POUND: f64 = FOOT * POUND_FORCE;
const HORSEPOWER: f64 = 550.0 * FOOT_POUND;
const TON_MILE: f64 = 2000.0 * POUND_FORCE * MILE;
const TONNE_KM: f64 = TONNE_FORCE * 1000.0;
/// International table Btu: one Btu/(lb·°F) is 4186.8 J/(kg·K) exactly.
const BTU: f64 = 4186.8 * POUND * RANKINE;
const RANKINE: f64 = 5.0 / 9.0;
/// One cP moved at one cm/s by one atmosphere per cm.
const DARCY: f64 = 1e-7 / ATMOSPHERE;
const DEGREE: f64 = PI / 180.0;
const MINUTE: f64 = 60.0;
const HOUR: f64 = 3600.0;
const DAY: f64 = 86_400.0;

const LENGTHS: &[Kind] = &[Kind::Depth, Kind::Diameter, Kind::Roughness];
const VOLUMES: &[Kind] = &[Kind::Volume, Kind::FluidVolume, Kind::Filtrate];
const PRESSURES: &[Kind] = &[Kind::Pressure, Kind::Stress];
const FLOWS: &[Kind] = &[Kind::FlowRate, Kind::FuelRate];
const GAS_FLOWS: &[Kind] = &[Kind::FlowRate, Kind::GasRate];
const ALL_FLOWS: &[Kind] = &[Kind::FlowRate, Kind::FuelRate, Kind::GasRate];
const SPEEDS: &[Kind] = &[Kind::Speed, Kind::JetSpeed, Kind::DrillingRate];

/// Where most factors come from: the definitions are repeated in its chapter 4 and appendix B.
const NIST: &str = "definitions in NIST SP 811 (2008)";
const SI: &str = "SI brochure, 9th edition";
const TRADE: &str = "common practice of the trade";

const fn unit(
    symbol: &'static str,
    spellings: &'static [&'static str],
    kinds: &'static [Kind],
    factor: f64,
    source: &'static str,
) -> Unit {
    Unit { symbol, spellings, kinds, factor, offset: 0.0, source }
}

const fn scale(symbol: &'static str, factor: f64, offset: f64, source: &'static str) -> Unit {
    Unit { symbol, spellings: &[], kinds: &[Kind::Temperature], factor, offset, source }
}

/// Every unit.
pub static TABLE: &[Unit] = &[
    // Length
    unit("ft", &["feet", "foot", "'"], LENGTHS, FOOT, NIST),
    unit("m", &["metre", "metres", "meter", "meters"], LENGTHS, 1.0, SI),
    unit("in", &["inch", "inches", "\""], LENGTHS, INCH, NIST),
    unit("mm", &[], LENGTHS, 1e-3, SI),
    unit("cm", &[], LENGTHS, 1e-2, SI),
    unit("um", &["micron", "microns"], LENGTHS, 1e-6, SI),
    unit("32nd", &["32nds", "32nd in", "32nds in"], &[Kind::Diameter], INCH / 32.0, NIST),
    unit("km", &[], &[Kind::Depth], 1000.0, SI),
    unit("mile", &["mi", "miles"], &[Kind::Depth], MILE, NIST),
    // Area and moments of area
    unit("in2", &["sq in", "sqin"], &[Kind::Area], INCH2, NIST),
    unit("mm2", &[], &[Kind::Area], 1e-6, SI),
    unit("cm2", &[], &[Kind::Area], 1e-4, SI),
    unit("m2", &[], &[Kind::Area], 1.0, SI),
    unit("ft2", &["sq ft"], &[Kind::Area], FOOT2, NIST),
    unit("in4", &[], &[Kind::SecondMoment], INCH2 * INCH2, NIST),
    unit("cm4", &[], &[Kind::SecondMoment], 1e-8, SI),
    unit("mm4", &[], &[Kind::SecondMoment], 1e-12, SI),
    unit("m4", &[], &[Kind::SecondMoment], 1.0, SI),
    // Volume
    unit("bbl", &["bbls", "barrel", "barrels"], VOLUMES, BARREL, NIST),
    unit("gal", &["gals", "US gal"], VOLUMES, GALLON, NIST),
    unit("L", &["l", "litre", "litres", "liter", "liters", "dm3"], VOLUMES, LITRE, SI),
    unit("m3", &[], &[Kind::Volume, Kind::FluidVolume, Kind::Filtrate, Kind::SectionModulus], 1.0, SI),
    unit("ft3", &["cu ft"], VOLUMES, FOOT3, NIST),
    unit("in3", &["cu in"], &[Kind::FluidVolume, Kind::Volume, Kind::SectionModulus], INCH3, NIST),
    unit("cm3", &["cc"], &[Kind::FluidVolume, Kind::Volume, Kind::Filtrate, Kind::SectionModulus], 1e-6, SI),
    unit("mL", &["ml"], VOLUMES, 1e-6, SI),
    unit("mm3", &[], &[Kind::SectionModulus], 1e-9, SI),
    unit("bbl/stk", &["bbl/stroke", "bbl"], &[Kind::VolumePerStroke], BARREL, NIST),
    unit("gal/stk", &["gal/stroke", "gal"], &[Kind::VolumePerStroke], GALLON, NIST),
    unit("L/stk", &["l/stk", "L/stroke", "l/stroke", "L", "l"], &[Kind::VolumePerStroke], LITRE, SI),
    unit("m3/stk", &["m3/stroke", "m3"], &[Kind::VolumePerStroke], 1.0, SI),
    unit("bbl/ft", &[], &[Kind::VolumePerLength], BARREL / FOOT, NIST),
    unit("gal/ft", &[], &[Kind::VolumePerLength], GALLON / FOOT, NIST),
    unit("ft3/ft", &[], &[Kind::VolumePerLength], FOOT2, NIST),
    unit("L/m", &["l/m"], &[Kind::VolumePerLength], LITRE, SI),
    unit("m3/m", &[], &[Kind::VolumePerLength], 1.0, SI),
    unit("bbl/m", &[], &[Kind::VolumePerLength], BARREL, NIST),
    // Density
    unit("ppg", &["lb/gal", "lbm/gal", "ppg EMW"], &[Kind::Density], POUND / GALLON, NIST),
    unit("sg", &["SG", "sg EMW"], &[Kind::Density], 1000.0, TRADE),
    unit("kg/m3", &["kg/m3 EMW"], &[Kind::Density], 1.0, SI),
    unit("lb/ft3", &["lbm/ft3", "pcf"], &[Kind::Density], POUND / FOOT3, NIST),
    unit("lb/bbl", &["lbm/bbl", "ppb"], &[Kind::Density], POUND / BARREL, NIST),
    unit("mg/L", &["mg/l"], &[Kind::Density], 1e-3, SI),
    unit("g/cm3", &["g/cc", "g/mL", "g/ml", "kg/L", "kg/l", "kg/dm3"], &[Kind::Density], 1000.0, SI),
    // Pressure and stress; gauge unless `abs` is written
    unit("psi", &["psig", "lbf/in2"], PRESSURES, PSI, NIST),
    unit("bar", &["barg"], PRESSURES, 1e5, SI),
    unit("kPa", &["kPag"], PRESSURES, 1e3, SI),
    unit("MPa", &["N/mm2"], PRESSURES, 1e6, SI),
    unit("Pa", &["N/m2"], &[Kind::Pressure, Kind::Stress, Kind::ShearStress], 1.0, SI),
    unit("GPa", &[], &[Kind::Stress], 1e9, SI),
    unit("ksi", &["kip/in2"], PRESSURES, 1000.0 * PSI, NIST),
    unit("kgf/cm2", &["kg/cm2"], PRESSURES, GRAVITY * 1e4, NIST),
    unit("psi abs", &["psia"], &[Kind::AbsolutePressure], PSI, NIST),
    unit("bar abs", &["bara"], &[Kind::AbsolutePressure], 1e5, SI),
    unit("kPa abs", &["kPaa"], &[Kind::AbsolutePressure], 1e3, SI),
    unit("MPa abs", &[], &[Kind::AbsolutePressure], 1e6, SI),
    unit("Pa abs", &[], &[Kind::AbsolutePressure], 1.0, SI),
    unit("atm", &["atm abs"], &[Kind::AbsolutePressure], ATMOSPHERE, NIST),
    unit("psi/ft", &[], &[Kind::PressureGradient], PSI / FOOT, NIST),
    unit("bar/m", &[], &[Kind::PressureGradient], 1e5, SI),
    unit("kPa/m", &["MPa/km"], &[Kind::PressureGradient], 1e3, SI),
    unit("Pa/m", &[], &[Kind::PressureGradient], 1.0, SI),
    unit("psi/100 ft", &[], &[Kind::PressureGradient], PSI / (100.0 * FOOT), NIST),
    unit("psi/1000 ft", &[], &[Kind::PressureGradient], PSI / (1000.0 * FOOT), NIST),
    unit("bar/100 m", &[], &[Kind::PressureGradient], 1e3, SI),
    unit("bar/10 m", &[], &[Kind::PressureGradient], 1e4, SI),
    // In a fluid the trade writes lb for lbf.
    unit("lb/100 ft2", &["lbf/100 ft2"], &[Kind::ShearStress], POUND_FORCE / (100.0 * FOOT2), NIST),
    unit("lbf/ft2", &["lb/ft2", "psf"], &[Kind::ShearStress, Kind::Pressure], POUND_FORCE / FOOT2, NIST),
    unit("dyn/cm2", &["dyne/cm2"], &[Kind::ShearStress], 0.1, NIST),
    unit("1/s", &["s-1", "1/sec", "sec-1"], &[Kind::ShearRate], 1.0, SI),
    unit("cP", &["cp", "cps", "centipoise"], &[Kind::Viscosity], 1e-3, NIST),
    unit("mPa.s", &[], &[Kind::Viscosity], 1e-3, SI),
    unit("Pa.s", &[], &[Kind::Viscosity], 1.0, SI),
    unit("lbf.s/ft2", &["lb.s/ft2"], &[Kind::Viscosity], POUND_FORCE / FOOT2, NIST),
    unit("lb.s^n/100 ft2", &["lbf.s^n/100 ft2", "lb s^n/100ft2"], &[Kind::Consistency], POUND_FORCE / (100.0 * FOOT2), NIST),
    unit("Pa.s^n", &[], &[Kind::Consistency], 1.0, SI),
    unit("eq cP", &["mPa.s^n", "eq. cp", "cP eq"], &[Kind::Consistency], 1e-3, TRADE),
    unit("lbf.s^n/ft2", &["lb.s^n/ft2"], &[Kind::Consistency], POUND_FORCE / FOOT2, NIST),
    // Force; the trade writes hook load in pounds and tonnes
    unit("klbf", &["klb", "klbs", "kip", "kips"], &[Kind::Force], 1000.0 * POUND_FORCE, NIST),
    unit("lbf", &["lb", "lbs"], &[Kind::Force], POUND_FORCE, NIST),
    unit("t", &["tf", "tonne", "tonnes"], &[Kind::Force], TONNE_FORCE, TRADE),
    unit("daN", &[], &[Kind::Force], 10.0, SI),
    unit("kdaN", &[], &[Kind::Force], 1e4, SI),
    unit("kN", &[], &[Kind::Force], 1e3, SI),
    unit("N", &[], &[Kind::Force], 1.0, SI),
    unit("MN", &[], &[Kind::Force], 1e6, SI),
    unit("kgf", &[], &[Kind::Force], GRAVITY, NIST),
    unit("short ton", &["short tons"], &[Kind::Force], 2000.0 * POUND_FORCE, NIST),
    unit("lbf/ft", &[], &[Kind::ForcePerLength], POUND_FORCE / FOOT, NIST),
    unit("N/m", &[], &[Kind::ForcePerLength], 1.0, SI),
    unit("kN/m", &[], &[Kind::ForcePerLength], 1e3, SI),
    unit("daN/m", &[], &[Kind::ForcePerLength], 10.0, SI),
    unit("lbf/in", &[], &[Kind::ForcePerLength], POUND_FORCE / INCH, NIST),
    unit("klbf/ft", &[], &[Kind::ForcePerLength], 1000.0 * POUND_FORCE / FOOT, NIST),
    // Mass
    unit("lb/ft", &["lbm/ft", "lbs/ft", "ppf"], &[Kind::LinearMass], POUND / FOOT, NIST),
    unit("kg/m", &[], &[Kind::LinearMass], 1.0, SI),
    unit("lb", &["lbm", "lbs"], &[Kind::Mass], POUND, NIST),
    unit("klb", &["klbm"], &[Kind::Mass], 1000.0 * POUND, NIST),
    unit("kg", &[], &[Kind::Mass], 1.0, SI),
    unit("t", &["tonne", "tonnes", "MT"], &[Kind::Mass], 1000.0, SI),
    unit("short ton", &["short tons"], &[Kind::Mass], 2000.0 * POUND, NIST),
    unit("g", &[], &[Kind::Mass], 1e-3, SI),
    unit("lb/min", &["lbm/min"], &[Kind::MassFlow], POUND / MINUTE, NIST),
    unit("lb/h", &["lbm/h", "lb/hr", "lbm/hr"], &[Kind::MassFlow], POUND / HOUR, NIST),
    unit("lb/s", &["lbm/s"], &[Kind::MassFlow], POUND, NIST),
    unit("kg/s", &[], &[Kind::MassFlow], 1.0, SI),
    unit("kg/min", &[], &[Kind::MassFlow], 1.0 / MINUTE, SI),
    unit("kg/h", &["kg/hr"], &[Kind::MassFlow], 1.0 / HOUR, SI),
    unit("t/h", &["t/hr"], &[Kind::MassFlow], 1000.0 / HOUR, SI),
    unit("t/d", &["t/day"], &[Kind::MassFlow], 1000.0 / DAY, SI),
    unit("g/mol", &["kg/kmol", "lb/lbmol", "lb/lb-mol"], &[Kind::MolarMass], 1e-3, SI),
    unit("kg/mol", &[], &[Kind::MolarMass], 1.0, SI),
    // Torque, power, work
    unit("kft-lbf", &["kft-lb", "klbf-ft", "klb-ft"], &[Kind::Torque], 1000.0 * FOOT_POUND, NIST),
    unit("ft-lbf", &["ft-lb", "lbf-ft", "lb-ft"], &[Kind::Torque, Kind::Energy], FOOT_POUND, NIST),
    unit("in-lbf", &["in-lb", "lbf-in"], &[Kind::Torque], INCH * POUND_FORCE, NIST),
    unit("kN.m", &[], &[Kind::Torque], 1e3, SI),
    unit("daN.m", &[], &[Kind::Torque], 10.0, SI),
    unit("N.m", &[], &[Kind::Torque], 1.0, SI),
    unit("hp", &["HP", "HHP", "hhp"], &[Kind::Power], HORSEPOWER, NIST),
    unit("kW", &[], &[Kind::Power], 1e3, SI),
    unit("MW", &[], &[Kind::Power], 1e6, SI),
    unit("W", &[], &[Kind::Power], 1.0, SI),
    unit("ft-lbf/min", &["ft-lb/min"], &[Kind::Power], FOOT_POUND / MINUTE, NIST),
    unit("Btu/h", &["Btu/hr"], &[Kind::Power], BTU / HOUR, NIST),
    unit("Btu/min", &[], &[Kind::Power], BTU / MINUTE, NIST),
    unit("hp/in2", &["HSI", "hsi"], &[Kind::PowerPerArea], HORSEPOWER / INCH2, NIST),
    unit("W/mm2", &["MW/m2"], &[Kind::PowerPerArea], 1e6, SI),
    unit("kW/m2", &[], &[Kind::PowerPerArea], 1e3, SI),
    unit("W/m2", &[], &[Kind::PowerPerArea], 1.0, SI),
    unit("ton-mile", &["ton-mi", "ton-miles"], &[Kind::LineWork], TON_MILE, NIST),
    unit("t-km", &[], &[Kind::LineWork], TONNE_KM, TRADE),
    unit("ton-mile/ft", &["ton-mi/ft", "ton-miles/ft"], &[Kind::WorkPerLength], TON_MILE / FOOT, NIST),
    unit("t-km/m", &[], &[Kind::WorkPerLength], TONNE_KM, TRADE),
    unit("J/m", &[], &[Kind::WorkPerLength], 1.0, SI),
    unit("MJ/m", &[], &[Kind::WorkPerLength], 1e6, SI),
    unit("kWh", &["kW h"], &[Kind::Energy], 1e3 * HOUR, SI),
    unit("MWh", &[], &[Kind::Energy], 1e6 * HOUR, SI),
    unit("J", &[], &[Kind::Energy, Kind::LineWork], 1.0, SI),
    unit("kJ", &[], &[Kind::Energy, Kind::LineWork], 1e3, SI),
    unit("MJ", &[], &[Kind::Energy, Kind::LineWork], 1e6, SI),
    unit("GJ", &[], &[Kind::Energy, Kind::LineWork], 1e9, SI),
    unit("Btu", &["BTU"], &[Kind::Energy], BTU, NIST),
    // Flow
    unit("gpm", &["gal/min"], FLOWS, GALLON / MINUTE, NIST),
    unit("L/min", &["l/min", "lpm", "LPM"], FLOWS, LITRE / MINUTE, SI),
    unit("m3/min", &[], &[Kind::FlowRate], 1.0 / MINUTE, SI),
    unit("bbl/min", &["bpm"], &[Kind::FlowRate], BARREL / MINUTE, NIST),
    unit("bbl/h", &["bbl/hr", "bph"], &[Kind::FlowRate], BARREL / HOUR, NIST),
    unit("bbl/d", &["bbl/day", "bpd"], FLOWS, BARREL / DAY, NIST),
    unit("ft3/d", &["ft3/day", "cfd", "scf/d"], GAS_FLOWS, FOOT3 / DAY, NIST),
    unit("MMscf/d", &["MMscfd", "MMcf/d", "MMcfd"], &[Kind::GasRate], 1e6 * FOOT3 / DAY, TRADE),
    unit("m3/h", &["m3/hr"], ALL_FLOWS, 1.0 / HOUR, SI),
    unit("m3/d", &["m3/day"], ALL_FLOWS, 1.0 / DAY, SI),
    unit("m3/s", &[], ALL_FLOWS, 1.0, SI),
    unit("L/s", &["l/s"], &[Kind::FlowRate], LITRE, SI),
    unit("ft3/min", &["cfm"], GAS_FLOWS, FOOT3 / MINUTE, NIST),
    unit("gal/h", &["gal/hr", "gph"], FLOWS, GALLON / HOUR, NIST),
    unit("gal/d", &["gal/day"], FLOWS, GALLON / DAY, NIST),
    unit("L/h", &["l/h", "L/hr", "l/hr"], FLOWS, LITRE / HOUR, SI),
    unit("L/d", &["l/d", "L/day", "l/day"], FLOWS, LITRE / DAY, SI),
    // Motion
    unit("ft/min", &["fpm"], SPEEDS, FOOT / MINUTE, NIST),
    unit("m/min", &[], SPEEDS, 1.0 / MINUTE, SI),
    unit("ft/h", &["ft/hr", "fph"], SPEEDS, FOOT / HOUR, NIST),
    unit("m/h", &["m/hr"], SPEEDS, 1.0 / HOUR, SI),
    unit("ft/s", &["ft/sec", "fps"], SPEEDS, FOOT, NIST),
    unit("m/s", &["m/sec"], SPEEDS, 1.0, SI),
    unit("mm/s", &[], SPEEDS, 1e-3, SI),
    unit("km/h", &[], &[Kind::Speed], 1000.0 / HOUR, SI),
    // Gravity as the trade's hydrostatic constant: 12/231 psi/ft/ppg is standard gravity.
    unit("psi/ft/ppg", &["psi/(ft.ppg)"], &[Kind::Acceleration], GRAVITY * 231.0 / 12.0, NIST),
    unit("bar/m/sg", &["bar/(m.sg)"], &[Kind::Acceleration], 100.0, TRADE),
    unit("kPa/m/(kg/m3)", &["kPa.m2/kg"], &[Kind::Acceleration], 1e3, SI),
    unit("m/s2", &["m/sec2"], &[Kind::Acceleration], 1.0, SI),
    unit("ft/s2", &["ft/sec2"], &[Kind::Acceleration], FOOT, NIST),
    unit("lbf/lb", &["lbf/lbm", "kgf/kg"], &[Kind::Acceleration], GRAVITY, NIST),
    unit("rpm", &["rev/min", "r/min", "1/min", "RPM"], &[Kind::RotarySpeed], 2.0 * PI / MINUTE, SI),
    unit("rad/s", &[], &[Kind::RotarySpeed], 1.0, SI),
    unit("rev/s", &["Hz"], &[Kind::RotarySpeed], 2.0 * PI, SI),
    unit("spm", &["stk/min", "strokes/min", "1/min", "SPM"], &[Kind::StrokeRate], 1.0 / MINUTE, SI),
    unit("1/s", &["stk/s", "Hz", "s-1"], &[Kind::StrokeRate], 1.0, SI),
    unit("deg", &["degree", "degrees"], &[Kind::Angle], DEGREE, SI),
    unit("rad", &[], &[Kind::Angle], 1.0, SI),
    unit("turn", &["turns"], &[Kind::Angle], 2.0 * PI, SI),
    unit("deg/100 ft", &[], &[Kind::Curvature], DEGREE / (100.0 * FOOT), NIST),
    unit("deg/30 m", &[], &[Kind::Curvature], DEGREE / 30.0, SI),
    unit("deg/10 m", &[], &[Kind::Curvature], DEGREE / 10.0, SI),
    unit("deg/ft", &[], &[Kind::Curvature], DEGREE / FOOT, NIST),
    unit("deg/m", &[], &[Kind::Curvature], DEGREE, SI),
    unit("rad/m", &["1/m"], &[Kind::Curvature], 1.0, SI),
    unit("rad/ft", &["1/ft"], &[Kind::Curvature], 1.0 / FOOT, NIST),
    unit("min", &["mins", "minute", "minutes"], &[Kind::Time], MINUTE, SI),
    unit("s", &["sec", "second", "seconds"], &[Kind::Time], 1.0, SI),
    unit("h", &["hr", "hrs", "hour", "hours"], &[Kind::Time], HOUR, SI),
    unit("d", &["day", "days"], &[Kind::Time], DAY, SI),
    // Heat
    scale("°F", RANKINE, 459.67, NIST),
    scale("°C", 1.0, 273.15, SI),
    scale("K", 1.0, 0.0, SI),
    scale("°R", RANKINE, 0.0, NIST),
    unit("°F", &["°R"], &[Kind::TemperatureChange], RANKINE, NIST),
    unit("°C", &["K"], &[Kind::TemperatureChange], 1.0, SI),
    unit("°F/100 ft", &[], &[Kind::TemperatureGradient], RANKINE / (100.0 * FOOT), NIST),
    unit("°C/100 m", &["K/100 m"], &[Kind::TemperatureGradient], 0.01, SI),
    unit("°C/km", &["K/km"], &[Kind::TemperatureGradient], 1e-3, SI),
    unit("°F/ft", &[], &[Kind::TemperatureGradient], RANKINE / FOOT, NIST),
    unit("°F/1000 ft", &[], &[Kind::TemperatureGradient], RANKINE / (1000.0 * FOOT), NIST),
    unit("°C/m", &["K/m"], &[Kind::TemperatureGradient], 1.0, SI),
    unit("1/°F", &["1/F", "1/°R"], &[Kind::Expansion], 1.0 / RANKINE, NIST),
    unit("1/°C", &["1/C", "1/K", "K-1"], &[Kind::Expansion], 1.0, SI),
    unit("1/psi", &["psi-1", "/psi"], &[Kind::Compressibility], 1.0 / PSI, NIST),
    unit("1/bar", &["bar-1", "/bar"], &[Kind::Compressibility], 1e-5, SI),
    unit("1/kPa", &["kPa-1"], &[Kind::Compressibility], 1e-3, SI),
    unit("1/MPa", &["MPa-1"], &[Kind::Compressibility], 1e-6, SI),
    unit("1/GPa", &["GPa-1"], &[Kind::Compressibility], 1e-9, SI),
    unit("1/Pa", &["Pa-1"], &[Kind::Compressibility], 1.0, SI),
    unit("Btu/(lb.°F)", &["Btu/(lbm.°F)", "Btu/(lb.F)", "Btu/(lbm.F)"], &[Kind::SpecificHeat], 4186.8, NIST),
    unit("J/(kg.K)", &["J/(kg.°C)", "J/kg/K"], &[Kind::SpecificHeat], 1.0, SI),
    unit("kJ/(kg.K)", &["kJ/(kg.°C)", "kJ/kg/K"], &[Kind::SpecificHeat], 1e3, SI),
    unit(
        "Btu/(h.ft.°F)",
        &["Btu/(hr.ft.°F)", "Btu/(h.ft.F)", "Btu/(hr.ft.F)"],
        &[Kind::Conductivity],
        BTU / (HOUR * FOOT * RANKINE),
        NIST,
    ),
    unit("W/(m.K)", &["W/(m.°C)", "W/m/K"], &[Kind::Conductivity], 1.0, SI),
    unit(
        "Btu/(h.ft2.°F)",
        &["Btu/(hr.ft2.°F)", "Btu/(h.ft2.F)", "Btu/(hr.ft2.F)"],
        &[Kind::HeatTransfer],
        BTU / (HOUR * FOOT2 * RANKINE),
        NIST,
    ),
    unit("W/(m2.K)", &["W/(m2.°C)", "W/m2/K"], &[Kind::HeatTransfer], 1.0, SI),
    unit("MJ/kg", &[], &[Kind::HeatingValue], 1e6, SI),
    unit("kJ/kg", &[], &[Kind::HeatingValue], 1e3, SI),
    unit("J/kg", &[], &[Kind::HeatingValue], 1.0, SI),
    unit("Btu/lb", &["Btu/lbm"], &[Kind::HeatingValue], 4186.8 * RANKINE, NIST),
    unit("kWh/kg", &[], &[Kind::HeatingValue], 1e3 * HOUR, SI),
    // Electric power that a generator carries whether or not it does work
    unit("kVA", &[], &[Kind::ApparentPower], 1e3, SI),
    unit("MVA", &[], &[Kind::ApparentPower], 1e6, SI),
    unit("VA", &["V.A"], &[Kind::ApparentPower], 1.0, SI),
    // Rock
    unit("mD", &["md"], &[Kind::Permeability], 1e-3 * DARCY, NIST),
    unit("D", &["darcy"], &[Kind::Permeability], DARCY, NIST),
    unit("m2", &[], &[Kind::Permeability], 1.0, SI),
    unit("um2", &[], &[Kind::Permeability], 1e-12, SI),
    // Prices: money per amount, in whatever currency
    unit("per t", &["per tonne"], &[Kind::PricePerMass], 1e-3, SI),
    unit("per kg", &[], &[Kind::PricePerMass], 1.0, SI),
    unit("per lb", &[], &[Kind::PricePerMass], 1.0 / POUND, NIST),
    unit("per m3", &[], &[Kind::PricePerVolume], 1.0, SI),
    unit("per L", &["per l", "per litre"], &[Kind::PricePerVolume], 1.0 / LITRE, SI),
    unit("per bbl", &["per barrel"], &[Kind::PricePerVolume], 1.0 / BARREL, NIST),
    unit("per gal", &["per gallon"], &[Kind::PricePerVolume], 1.0 / GALLON, NIST),
    // Plain numbers
    unit("%", &["percent", "pct"], &[Kind::Fraction], 1e-2, SI),
    unit("ppm", &[], &[Kind::Fraction], 1e-6, TRADE),
    unit("", &[], &[Kind::Ratio, Kind::Count, Kind::Dial, Kind::Fraction, Kind::Cost], 1.0, SI),
    unit("deg", &["degree", "degrees"], &[Kind::Dial], 1.0, TRADE),
    unit("stk", &["stroke", "strokes"], &[Kind::Count], 1.0, TRADE),
];
