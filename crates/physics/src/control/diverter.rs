//! Gas out of a diverter: what stands at the wellhead while it flows through a line that may be choked at its open end, and in the
//! annulus below.
//!
//! Adiabatic flow with friction of a perfect gas (Fanno) along the line, whose loss is counted back from the end; gas of one
//! temperature in the annulus. Dry gas: water and sand that come along are left out. Pressures are absolute.

use super::gas::MOLAR_GAS_CONSTANT;
use crate::numerics::root;
use crate::{Formula, FormulaRecord, Kind, Recorder, Root, STANDARD_GRAVITY, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    <SonicExitPressure as Formula>::RECORD,
    <FrictionToChoke as Formula>::RECORD,
    <PressureOverChoke as Formula>::RECORD,
    <PressureAtRest as Formula>::RECORD,
    <LineResistance as Formula>::RECORD,
    <FlowingGasColumn as Formula>::RECORD,
];

/// Slower gas than this loses nothing that a gauge shows.
const SLOWEST: f64 = 0.001;

formula! {
    /// Pressure at the end of a line through which gas leaves as fast as sound.
    pub struct SonicExitPressure;
    slug "sonic-exit-pressure";
    equation "p* = (4 m/(π d²)) √(2 z R T/(γ (γ + 1) M))";
    law Empirical("J, mol and K, in the molar gas constant");
    source "continuity and the speed of sound of a perfect gas, T* = 2 T/(γ + 1); exit pressures at critical rate are what Beck, Langlinais and Bourgoyne, J. Energy Resour. Technol. 120 (1998) 90 (SPE/IADC 16129, 1987), find to load a diverter (abstract)";
    given {
        /// mass rate of gas
        mass_rate "m" MassFlow must NON_NEGATIVE;
        /// inside diameter of the line
        inner_diameter "d" Diameter must POSITIVE;
        /// temperature of the gas at rest
        temperature "T" Temperature must POSITIVE;
        /// molar mass of the gas
        molar_mass "M" MolarMass must between(0.002, 0.2);
        /// ratio of specific heats
        heat_ratio "γ" Ratio must between(1.01, 1.67);
        /// compressibility factor
        factor "z" Ratio must POSITIVE default 1.0;
    }
    /// absolute pressure at the end
    gives "p*" AbsolutePressure;
    value |f| {
        let flux = f.mass_rate / (std::f64::consts::FRAC_PI_4 * f.inner_diameter * f.inner_diameter);
        let square = 2.0 * f.factor * MOLAR_GAS_CONSTANT * f.temperature;
        flux * (square / (f.heat_ratio * (f.heat_ratio + 1.0) * f.molar_mass)).sqrt()
    }
}

formula! {
    /// Friction that takes gas of a Mach number to the speed of sound.
    pub struct FrictionToChoke;
    slug "friction-to-choke";
    equation "N = (1 - Ma²)/(γ Ma²) + (γ + 1)/(2 γ) ln((γ + 1) Ma²/(2 + (γ - 1) Ma²))";
    law Homogeneous;
    source "Fanno flow of a perfect gas: Farokhi, Aircraft Propulsion, 2nd ed. 2014, appendix E";
    given {
        /// Mach number
        mach "Ma" Ratio must between(SLOWEST, 1.0);
        /// ratio of specific heats
        heat_ratio "γ" Ratio must between(1.01, 1.67);
    }
    /// resistance up to the speed of sound: Darcy's f L/d
    gives "N" Ratio;
    value |f| {
        let (square, heat) = (f.mach * f.mach, f.heat_ratio);
        let speeding = ((heat + 1.0) * square / (2.0 + (heat - 1.0) * square)).ln();
        (1.0 - square) / (heat * square) + 0.5 * (heat + 1.0) / heat * speeding
    }
}

formula! {
    /// Pressure of gas of a Mach number over that at which friction would take it to the speed of sound.
    pub struct PressureOverChoke;
    slug "pressure-over-choke";
    equation "p/p* = √((γ + 1)/(2 + (γ - 1) Ma²))/Ma";
    law Homogeneous;
    source "Fanno flow of a perfect gas: Farokhi, Aircraft Propulsion, 2nd ed. 2014, appendix E";
    given {
        /// Mach number
        mach "Ma" Ratio must between(SLOWEST, 1.0);
        /// ratio of specific heats
        heat_ratio "γ" Ratio must between(1.01, 1.67);
    }
    /// pressure over that at the speed of sound
    gives "p/p*" Ratio;
    value |f| ((f.heat_ratio + 1.0) / (2.0 + (f.heat_ratio - 1.0) * f.mach * f.mach)).sqrt() / f.mach
}

formula! {
    /// Pressure of flowing gas that comes to rest without loss: that from which a line sucks.
    pub struct PressureAtRest;
    slug "pressure-at-rest";
    equation "p₀ = p (1 + (γ - 1)/2 Ma²)^(γ/(γ - 1))";
    law Homogeneous;
    source "isentropic flow of a perfect gas: NACA Report 1135 (1953), eq. 44, from memory";
    given {
        /// absolute pressure of the flowing gas
        absolute_pressure "p" AbsolutePressure must NON_NEGATIVE;
        /// Mach number
        mach "Ma" Ratio must between(SLOWEST, 1.0);
        /// ratio of specific heats
        heat_ratio "γ" Ratio must between(1.01, 1.67);
    }
    /// absolute pressure at rest
    gives "p₀" AbsolutePressure;
    value |f| {
        let warmer = 1.0 + 0.5 * (f.heat_ratio - 1.0) * f.mach * f.mach;
        f.absolute_pressure * warmer.powf(f.heat_ratio / (f.heat_ratio - 1.0))
    }
}

formula! {
    /// Resistance of a line with its fittings.
    pub struct LineResistance;
    slug "line-resistance";
    equation "N = f L/d + K";
    law Homogeneous;
    source "Darcy and Weisbach; resistance coefficients of fittings add, Crane TP-410 (from memory)";
    given {
        /// Darcy friction factor
        friction_factor "f" Ratio must NON_NEGATIVE valid between(0.008, 0.1);
        /// length
        length "L" Depth must NON_NEGATIVE;
        /// inside diameter
        inner_diameter "d" Diameter must POSITIVE;
        /// sum of the resistance coefficients of entrance, valve and bends
        fittings "K" Ratio must NON_NEGATIVE;
    }
    /// resistance
    gives "N" Ratio;
    value |f| f.friction_factor * f.length / f.inner_diameter + f.fittings
}

formula! {
    /// Pressure below a column of gas that flows up.
    ///
    /// One temperature and one compressibility factor over the column; what speeds the gas up is left out.
    pub struct FlowingGasColumn;
    slug "flowing-gas-column";
    equation "p_b² = p_t² e^S + f (L/D) (m/A)² (z R T/M)² (e^S - 1)/(2 d_h g), S = 2 g M D/(z R T)";
    law Empirical("J, mol and K, in the molar gas constant");
    source "method of average temperature and compressibility factor, Katz et al., Handbook of Natural Gas Engineering, 1959, from memory; solution of dp/dD = ρ g + f (L/D) (m/A)²/(2 d_h ρ) with ρ = p M/(z R T)";
    given {
        /// absolute pressure at the top
        top_pressure "p_t" AbsolutePressure must NON_NEGATIVE;
        /// mass rate of gas
        mass_rate "m" MassFlow must NON_NEGATIVE;
        /// cross-section
        area "A" Area must POSITIVE;
        /// hydraulic diameter: of an annulus the difference of its diameters
        width "d_h" Diameter must POSITIVE;
        /// Darcy friction factor
        friction_factor "f" Ratio must NON_NEGATIVE valid between(0.008, 0.1);
        /// length along the hole
        length "L" Depth must NON_NEGATIVE;
        /// vertical height
        height "D" Depth must between(0.001, 15000.0);
        /// temperature of the gas
        temperature "T" Temperature must between(200.0, 700.0);
        /// molar mass of the gas
        molar_mass "M" MolarMass must between(0.002, 0.06);
        /// compressibility factor
        factor "z" Ratio must between(0.3, 3.0) default 1.0;
        /// acceleration of free fall
        gravity "g" Acceleration must between(1.0, 20.0) valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// absolute pressure at the bottom
    gives "p_b" AbsolutePressure;
    value |f| {
        let elastic = f.factor * MOLAR_GAS_CONSTANT * f.temperature / f.molar_mass;
        let growth = 2.0 * f.gravity * f.height / elastic;
        let flux = f.mass_rate / f.area;
        let friction = f.friction_factor * (f.length / f.height) * (flux * elastic).powi(2) / (2.0 * f.width * f.gravity);
        (f.top_pressure * f.top_pressure * growth.exp() + friction * growth.exp_m1()).sqrt()
    }
}

/// A line open to the air with gas flowing out of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OpenLine {
    /// Resistance: Darcy's f L/d and the coefficients of the fittings. [-]
    pub resistance: f64,
    /// Inside diameter. [m]
    pub inner_diameter: f64,
    /// Absolute pressure outside its end. [Pa]
    pub outside: f64,
    /// Temperature of the gas at rest. [K]
    pub temperature: f64,
    /// Molar mass of the gas. [kg/mol]
    pub molar_mass: f64,
    /// Ratio of specific heats. [-]
    pub heat_ratio: f64,
}

/// Gas on its way out of a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outflow {
    /// Absolute pressure before the line, at rest. [Pa]
    pub before: f64,
    /// Absolute pressure at its end, inside. [Pa]
    pub end: f64,
    /// Mach number where it enters the line. [-]
    pub enters: f64,
    /// Mach number at the end: one where the line is choked. [-]
    pub leaves: f64,
    /// Speed at the end. [m/s]
    pub speed: f64,
}

impl OpenLine {
    /// The way out of a mass rate, counted back from the end. `None` for gas too slow to lose anything.
    pub fn outflow<R: Recorder>(&self, rec: &mut R, mass_rate: f64) -> Option<Outflow> {
        let OpenLine { resistance, inner_diameter, outside, temperature, molar_mass, heat_ratio } = *self;
        let ratio = |mach: f64| PressureOverChoke { mach, heat_ratio };
        let friction = |mach: f64| FrictionToChoke { mach, heat_ratio };
        let sonic = rec.take(SonicExitPressure { mass_rate, inner_diameter, temperature, molar_mass, heat_ratio, factor: 1.0 });
        let leaves = if sonic >= outside {
            1.0
        } else {
            let residual = |mach: f64| sonic * ratio(mach).value() - outside;
            let mach = root(residual, SLOWEST, 1.0)?;
            rec.root(Root {
                equation: "p* (p/p*)(Ma) = p outside",
                sign: "Ma",
                meaning: "Mach number at the end: the gas leaves slower than sound",
                kind: Kind::Ratio,
                value: mach,
                residual: residual(mach),
                residual_kind: Kind::Pressure,
            });
            mach
        };
        let left = rec.take(friction(leaves));
        let wanted = left + resistance;
        rec.given("with the resistance of the line before it", wanted, Kind::Ratio);
        let residual = |mach: f64| friction(mach).value() - wanted;
        let enters = if resistance > 0.0 { root(residual, SLOWEST, leaves)? } else { leaves };
        rec.root(Root {
            equation: "N(Ma) = N at the end + N of the line",
            sign: "Ma",
            meaning: "Mach number where the gas enters the line",
            kind: Kind::Ratio,
            value: enters,
            residual: residual(enters),
            residual_kind: Kind::Ratio,
        });
        let entry = sonic * rec.take(ratio(enters));
        rec.given("pressure where the gas enters, absolute", entry, Kind::AbsolutePressure);
        let before = rec.take(PressureAtRest { absolute_pressure: entry, mach: enters, heat_ratio });
        let end = sonic.max(outside);
        let cooled = temperature / (1.0 + 0.5 * (heat_ratio - 1.0) * leaves * leaves);
        let speed = leaves * (heat_ratio * MOLAR_GAS_CONSTANT * cooled / molar_mass).sqrt();
        Some(Outflow { before, end, enters, leaves, speed })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::control::separator::VentLine;
    use crate::{Off, STANDARD_ATMOSPHERE};

    const AIR: OpenLine = OpenLine {
        resistance: 0.0,
        inner_diameter: 0.05,
        outside: 1.0,
        temperature: 453.6,
        molar_mass: 0.028_965,
        heat_ratio: 1.4,
    };

    /// A row of the table: air enters at Mach 0.10, 66.922 of friction take it to the speed of sound, where its pressure is 10.944
    /// times less (Farokhi, Aircraft Propulsion, 2nd ed. 2014, appendix E). At rest it stands 1.0070 times higher (NACA Report 1135).
    #[test]
    fn published_a_choked_line_stands_in_the_fanno_table() {
        for (mach, friction, ratio) in [(0.10, 66.922, 10.944), (0.12, 45.408, 9.1156), (0.14, 32.511, 7.8093)] {
            let line = OpenLine { resistance: friction, ..AIR };
            let out = line.outflow(&mut Off, 1.0).unwrap();
            assert!((out.leaves - 1.0).abs() < 1e-12 && (out.enters - mach).abs() < 1e-5, "{out:?}");
            let at_rest = PressureAtRest { absolute_pressure: ratio * out.end, mach, heat_ratio: 1.4 }.value();
            assert!((out.before / at_rest - 1.0).abs() < 1e-4, "{out:?}");
        }
    }

    /// Air of 450 K and 220 kPa enters a duct of 5 cm and 27 m with f = 0.023 at 85 m/s, Mach 0.200; 14.5333 - 12.42 = 2.1133 of friction is
    /// left at its end (Çengel and Cimbala, Fluid Mechanics, worked example on Fanno flow, which reads Mach 0.420 there). In the table of
    /// Massey, Mechanics of Fluids, A3.3, that lies between 2.308 at Mach 0.40 and 1.974 at 0.42.
    #[test]
    fn published_a_duct_that_is_not_choked_comes_out_as_printed() {
        let gas = MOLAR_GAS_CONSTANT / AIR.molar_mass;
        let mass_rate = 220e3 / (gas * 450.0) * 85.0 * std::f64::consts::FRAC_PI_4 * 0.05 * 0.05;
        let temperature = 450.0 * (1.0 + 0.2 * 0.2 * 0.2);
        let left = |mach: f64| FrictionToChoke { mach, heat_ratio: 1.4 }.value() - 2.1133;
        let leaves = root(left, 0.40, 0.42).unwrap();
        let ratio = |mach: f64| PressureOverChoke { mach, heat_ratio: 1.4 }.value();
        let outside = 220e3 * ratio(leaves) / ratio(0.2);
        let line = OpenLine { resistance: 0.023 * 27.0 / 0.05, outside, temperature, ..AIR };
        let out = line.outflow(&mut Off, mass_rate).unwrap();
        assert!((out.leaves - leaves).abs() < 5e-4 && (out.enters - 0.2).abs() < 5e-4, "{out:?}");
    }

    #[test]
    fn law_slow_gas_loses_what_a_line_at_one_temperature_does() {
        let (molar_mass, temperature) = (0.0174, 300.0);
        let outlet_density = STANDARD_ATMOSPHERE * molar_mass / (MOLAR_GAS_CONSTANT * temperature);
        let (length, inner_diameter, friction_factor) = (60.0, 0.25, 0.014);
        let vent = VentLine { length, inner_diameter, friction_factor, outlet_pressure: STANDARD_ATMOSPHERE, outlet_density };
        let resistance = LineResistance { friction_factor, length, inner_diameter, fittings: 0.0 }.value();
        let line =
            OpenLine { resistance, inner_diameter, outside: STANDARD_ATMOSPHERE, temperature, molar_mass, heat_ratio: 1.3 };
        let mass_rate = 1.0;
        let out = line.outflow(&mut Off, mass_rate).unwrap();
        let entry = out.before / PressureAtRest { absolute_pressure: 1.0, mach: out.enters, heat_ratio: 1.3 }.value();
        let loss = vent.inlet_pressure(&mut Off, mass_rate).unwrap() - STANDARD_ATMOSPHERE;
        // The other line keeps its temperature and leaves out what speeds the gas up: at this rate both are below a hundredth.
        assert!(out.leaves * out.leaves * 1.3 < 0.01);
        assert!(((entry - STANDARD_ATMOSPHERE) / loss - 1.0).abs() < 0.01, "{entry} {loss}");
    }

    #[test]
    fn law_a_choked_line_keeps_pressure_over_rate_and_a_wider_one_has_less() {
        let line = OpenLine { resistance: 6.0, outside: STANDARD_ATMOSPHERE, ..AIR };
        let before = |line: OpenLine, mass_rate: f64| line.outflow(&mut Off, mass_rate).unwrap();
        let (one, two) = (before(line, 3.0), before(line, 6.0));
        assert!((one.leaves - 1.0).abs() < 1e-12 && (two.before / one.before - 2.0).abs() < 1e-9);
        // The end turns from slower than sound to choked without a step.
        let sonic = SonicExitPressure {
            mass_rate: 1.0,
            inner_diameter: AIR.inner_diameter,
            temperature: AIR.temperature,
            molar_mass: AIR.molar_mass,
            heat_ratio: AIR.heat_ratio,
            factor: 1.0,
        };
        let turns = STANDARD_ATMOSPHERE / sonic.value();
        let (below, above) = (before(line, turns * (1.0 - 1e-9)), before(line, turns * (1.0 + 1e-9)));
        assert!((above.before / below.before - 1.0).abs() < 1e-4 && below.leaves < 1.0);
        let mut last = f64::INFINITY;
        for inner_diameter in [0.05, 0.1, 0.15, 0.2, 0.3] {
            let now = before(OpenLine { inner_diameter, ..line }, 3.0).before;
            assert!(now < last, "{inner_diameter}");
            last = now;
        }
        assert_eq!(line.outflow(&mut Off, 1e-6), None);
    }

    #[test]
    fn law_a_column_of_gas_solves_its_equation() {
        let column = FlowingGasColumn {
            top_pressure: 5e5,
            mass_rate: 8.0,
            area: 0.12,
            width: 0.3,
            friction_factor: 0.015,
            length: 420.0,
            height: 400.0,
            temperature: 295.0,
            molar_mass: 0.0174,
            factor: 1.0,
            gravity: 9.806_65,
        };
        // Its slope, by a difference, is weight and friction of the gas that is there.
        let at = |height: f64| FlowingGasColumn { height, length: 1.05 * height, ..column }.value();
        let (depth, step) = (250.0, 0.5);
        let slope = (at(depth + step) - at(depth - step)) / (2.0 * step);
        let density = at(depth) * column.molar_mass / (MOLAR_GAS_CONSTANT * column.temperature);
        let flux = column.mass_rate / column.area;
        let friction = 1.05 * column.friction_factor * flux * flux / (2.0 * column.width * density);
        assert!((slope / (density * column.gravity + friction) - 1.0).abs() < 1e-6);
        // Standing still it is a column of gas of one temperature.
        let still = FlowingGasColumn { mass_rate: 0.0, ..column };
        let power = still.gravity * still.molar_mass * still.height / (MOLAR_GAS_CONSTANT * still.temperature);
        assert!((still.value() / (still.top_pressure * power.exp()) - 1.0).abs() < 1e-12);
    }
}
