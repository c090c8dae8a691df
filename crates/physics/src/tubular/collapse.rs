//! Collapse of pipe under outside pressure, by the four formulas of API Bulletin 5C3.
//!
//! Which of the four holds depends on diameter over wall and on the yield strength. Tension lowers the yield
//! strength first (the axial stress equivalent grade), then everything is worked out again with it. The same
//! formulas serve casing and drill pipe; worn pipe enters with its worn diameter and wall.

use crate::field::PSI;
use crate::{Formula, FormulaRecord, Recorder, formula};

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] = &[
    Slenderness::RECORD,
    CoefficientA::RECORD,
    CoefficientB::RECORD,
    CoefficientC::RECORD,
    CoefficientF::RECORD,
    CoefficientG::RECORD,
    YieldPlasticLimit::RECORD,
    PlasticTransitionLimit::RECORD,
    TransitionElasticLimit::RECORD,
    YieldCollapse::RECORD,
    PlasticCollapse::RECORD,
    TransitionCollapse::RECORD,
    ElasticCollapse::RECORD,
    EquivalentGrade::RECORD,
];

/// Below this yield strength the limits between the regimes lose their order. [Pa]
const LEAST_YIELD: f64 = 20_000.0 * PSI;
/// No grade of pipe is stronger. [Pa]
const MOST_YIELD: f64 = 200_000.0 * PSI;

/// The coefficients A, B, C [psi], F, G and the ratio B/A at a yield strength. [psi]
struct Coefficients {
    a: f64,
    b: f64,
    c: f64,
    f: f64,
    g: f64,
    ratio: f64,
}

impl Coefficients {
    fn of(yield_strength: f64) -> Coefficients {
        let y = yield_strength / PSI;
        let a = 2.8762 + y * (0.106_79e-5 + y * (0.213_01e-10 - y * 0.531_32e-16));
        let b = 0.026_233 + 0.506_09e-6 * y;
        let c = -465.93 + y * (0.030_867 - y * (0.104_83e-7 - y * 0.369_89e-13));
        let ratio = b / a;
        // Where the transition formula touches the elastic one.
        let touch = 3.0 * ratio / (2.0 + ratio);
        let f = 46.95e6 * touch.powi(3) / (y * (touch - ratio) * (1.0 - touch).powi(2));
        Coefficients { a, b, c, f, g: f * ratio, ratio }
    }
}

formula! {
    /// Slenderness of a pipe: outside diameter over wall.
    pub struct Slenderness;
    slug "slenderness";
    equation "D/t";
    law Homogeneous;
    source "definition";
    given {
        /// outside diameter, worn where the pipe is worn
        outer_diameter "D" Diameter must NON_NEGATIVE;
        /// wall
        wall "t" Diameter must at_least(1e-5);
    }
    /// outside diameter over wall
    gives "D/t" Ratio;
    value |f| f.outer_diameter / f.wall
}

formula! {
    /// Coefficient A of the plastic collapse formula.
    pub struct CoefficientA;
    slug "collapse-coefficient-a";
    equation "A = 2.8762 + 0.10679e-5 Y + 0.21301e-10 Y² - 0.53132e-16 Y³";
    law Empirical("psi");
    source "API Bulletin 5C3, 6th ed. 1994 (formulas as in TR 5C3 / ISO 10400)";
    given {
        /// yield strength, or the equivalent one under tension
        yield_strength "Y" Stress must between(LEAST_YIELD, MOST_YIELD) valid between(40_000.0 * PSI, 155_000.0 * PSI);
    }
    /// coefficient A
    gives "A" Ratio;
    value |f| Coefficients::of(f.yield_strength).a
}

formula! {
    /// Coefficient B of the plastic collapse formula.
    pub struct CoefficientB;
    slug "collapse-coefficient-b";
    equation "B = 0.026233 + 0.50609e-6 Y";
    law Empirical("psi");
    source "API Bulletin 5C3, 6th ed. 1994 (formulas as in TR 5C3 / ISO 10400)";
    given {
        /// yield strength, or the equivalent one under tension
        yield_strength "Y" Stress must between(LEAST_YIELD, MOST_YIELD) valid between(40_000.0 * PSI, 155_000.0 * PSI);
    }
    /// coefficient B
    gives "B" Ratio;
    value |f| Coefficients::of(f.yield_strength).b
}

formula! {
    /// Coefficient C of the plastic collapse formula, a pressure.
    pub struct CoefficientC;
    slug "collapse-coefficient-c";
    equation "C = -465.93 + 0.030867 Y - 0.10483e-7 Y² + 0.36989e-13 Y³";
    law Empirical("psi");
    source "API Bulletin 5C3, 6th ed. 1994 (formulas as in TR 5C3 / ISO 10400)";
    given {
        /// yield strength, or the equivalent one under tension
        yield_strength "Y" Stress must between(LEAST_YIELD, MOST_YIELD) valid between(40_000.0 * PSI, 155_000.0 * PSI);
    }
    /// coefficient C
    gives "C" Pressure;
    value |f| Coefficients::of(f.yield_strength).c * PSI
}

formula! {
    /// Coefficient F of the transition collapse formula.
    pub struct CoefficientF;
    slug "collapse-coefficient-f";
    equation "F = 46.95e6 x³/{Y (x - R) (1 - x)²}, x = 3R/(2 + R), R = B/A";
    law Empirical("psi");
    source "API Bulletin 5C3, 6th ed. 1994 (formulas as in TR 5C3 / ISO 10400)";
    given {
        /// yield strength, or the equivalent one under tension
        yield_strength "Y" Stress must between(LEAST_YIELD, MOST_YIELD) valid between(40_000.0 * PSI, 155_000.0 * PSI);
    }
    /// coefficient F
    gives "F" Ratio;
    value |f| Coefficients::of(f.yield_strength).f
}

formula! {
    /// Coefficient G of the transition collapse formula.
    pub struct CoefficientG;
    slug "collapse-coefficient-g";
    equation "G = F B/A, all of Y";
    law Empirical("psi");
    source "API Bulletin 5C3, 6th ed. 1994 (formulas as in TR 5C3 / ISO 10400)";
    given {
        /// yield strength, or the equivalent one under tension
        yield_strength "Y" Stress must between(LEAST_YIELD, MOST_YIELD) valid between(40_000.0 * PSI, 155_000.0 * PSI);
    }
    /// coefficient G
    gives "G" Ratio;
    value |f| Coefficients::of(f.yield_strength).g
}

formula! {
    /// Slenderness up to which yield collapse holds; plastic collapse beyond.
    pub struct YieldPlasticLimit;
    slug "yield-plastic-limit";
    equation "D/t = [√((A - 2)² + 8 (B + C/Y)) + (A - 2)]/[2 (B + C/Y)]";
    law Empirical("psi");
    source "API Bulletin 5C3, 6th ed. 1994 (formulas as in TR 5C3 / ISO 10400)";
    given {
        /// yield strength, or the equivalent one under tension
        yield_strength "Y" Stress must between(LEAST_YIELD, MOST_YIELD) valid between(40_000.0 * PSI, 155_000.0 * PSI);
    }
    /// largest outside diameter over wall in yield collapse
    gives "D/t" Ratio;
    value |f| {
        let k = Coefficients::of(f.yield_strength);
        let sum = k.b + k.c * PSI / f.yield_strength;
        (((k.a - 2.0).powi(2) + 8.0 * sum).sqrt() + (k.a - 2.0)) / (2.0 * sum)
    }
}

formula! {
    /// Slenderness up to which plastic collapse holds; transition beyond.
    pub struct PlasticTransitionLimit;
    slug "plastic-transition-limit";
    equation "D/t = Y (A - F)/[C + Y (B - G)]";
    law Empirical("psi");
    source "API Bulletin 5C3, 6th ed. 1994 (formulas as in TR 5C3 / ISO 10400)";
    given {
        /// yield strength, or the equivalent one under tension
        yield_strength "Y" Stress must between(LEAST_YIELD, MOST_YIELD) valid between(40_000.0 * PSI, 155_000.0 * PSI);
    }
    /// largest outside diameter over wall in plastic collapse
    gives "D/t" Ratio;
    value |f| {
        let k = Coefficients::of(f.yield_strength);
        f.yield_strength * (k.a - k.f) / (k.c * PSI + f.yield_strength * (k.b - k.g))
    }
}

formula! {
    /// Slenderness up to which transition collapse holds; elastic collapse beyond.
    pub struct TransitionElasticLimit;
    slug "transition-elastic-limit";
    equation "D/t = (2 + B/A)/(3 B/A), A and B of Y";
    law Empirical("psi");
    source "API Bulletin 5C3, 6th ed. 1994 (formulas as in TR 5C3 / ISO 10400)";
    given {
        /// yield strength, or the equivalent one under tension
        yield_strength "Y" Stress must between(LEAST_YIELD, MOST_YIELD) valid between(40_000.0 * PSI, 155_000.0 * PSI);
    }
    /// largest outside diameter over wall in transition collapse
    gives "D/t" Ratio;
    value |f| {
        let ratio = Coefficients::of(f.yield_strength).ratio;
        (2.0 + ratio) / (3.0 * ratio)
    }
}

formula! {
    /// Collapse strength where the bore yields first: thick pipe.
    pub struct YieldCollapse;
    slug "yield-collapse";
    equation "p = 2 Y (D/t - 1)/(D/t)²";
    law Homogeneous;
    source "API Bulletin 5C3, 6th ed. 1994 (formulas as in TR 5C3 / ISO 10400)";
    given {
        /// yield strength, or the equivalent one under tension
        yield_strength "Y" Stress must NON_NEGATIVE;
        /// outside diameter over wall
        slenderness "D/t" Ratio must at_least(2.0);
    }
    /// collapse strength
    gives "p" Pressure;
    value |f| 2.0 * f.yield_strength * (f.slenderness - 1.0) / (f.slenderness * f.slenderness)
}

formula! {
    /// Collapse strength in the plastic regime: most casing.
    pub struct PlasticCollapse;
    slug "plastic-collapse";
    equation "p = Y (A/(D/t) - B) - C";
    law Homogeneous;
    source "API Bulletin 5C3, 6th ed. 1994 (formulas as in TR 5C3 / ISO 10400)";
    given {
        /// yield strength, or the equivalent one under tension
        yield_strength "Y" Stress must NON_NEGATIVE;
        /// coefficient A of this yield strength
        coefficient_a "A" Ratio must ANY;
        /// coefficient B of this yield strength
        coefficient_b "B" Ratio must ANY;
        /// coefficient C of this yield strength
        coefficient_c "C" Pressure must ANY;
        /// outside diameter over wall
        slenderness "D/t" Ratio must at_least(2.0);
    }
    /// collapse strength
    gives "p" Pressure;
    value |f| f.yield_strength * (f.coefficient_a / f.slenderness - f.coefficient_b) - f.coefficient_c
}

formula! {
    /// Collapse strength between the plastic and the elastic regime.
    pub struct TransitionCollapse;
    slug "transition-collapse";
    equation "p = Y (F/(D/t) - G)";
    law Homogeneous;
    source "API Bulletin 5C3, 6th ed. 1994 (formulas as in TR 5C3 / ISO 10400)";
    given {
        /// yield strength, or the equivalent one under tension
        yield_strength "Y" Stress must NON_NEGATIVE;
        /// coefficient F of this yield strength
        coefficient_f "F" Ratio must ANY;
        /// coefficient G of this yield strength
        coefficient_g "G" Ratio must ANY;
        /// outside diameter over wall
        slenderness "D/t" Ratio must at_least(2.0);
    }
    /// collapse strength
    gives "p" Pressure;
    value |f| f.yield_strength * (f.coefficient_f / f.slenderness - f.coefficient_g)
}

formula! {
    /// Collapse strength of thin pipe, which buckles before it yields: the grade does not matter.
    pub struct ElasticCollapse;
    slug "elastic-collapse";
    equation "p = 46.95e6/[(D/t) (D/t - 1)²] psi";
    law Empirical("psi");
    source "API Bulletin 5C3, 6th ed. 1994 (formulas as in TR 5C3 / ISO 10400)";
    given {
        /// outside diameter over wall
        slenderness "D/t" Ratio must at_least(2.0);
    }
    /// collapse strength
    gives "p" Pressure;
    value |f| 46.95e6 * PSI / (f.slenderness * (f.slenderness - 1.0).powi(2))
}

formula! {
    /// Yield strength that is left for collapse in pipe under tension: the axial stress equivalent grade.
    ///
    /// Compression earns no credit: enter nought. The 2015 edition puts axial stress plus inside pressure here and
    /// compares the difference of the pressures.
    pub struct EquivalentGrade;
    slug "equivalent-grade";
    equation "Y_e = Y {√[1 - 0.75 (σ/Y)²] - 0.5 σ/Y}";
    law Homogeneous;
    source "API Bulletin 5C3, 6th ed. 1994, axial stress equivalent grade";
    given {
        /// yield strength
        yield_strength "Y" Stress must at_least(1.0);
        /// axial stress, tension positive
        axial_stress "σ" Stress must NON_NEGATIVE;
    }
    /// equivalent yield strength; nought once the tension alone yields the pipe
    gives "Y_e" Stress;
    value |f| {
        let share = f.axial_stress / f.yield_strength;
        if share >= 1.0 { 0.0 } else { f.yield_strength * ((1.0 - 0.75 * share * share).sqrt() - 0.5 * share).max(0.0) }
    }
}

/// The body of a pipe as it is: worn, where it is worn.
#[derive(Clone, Copy, Debug)]
pub struct PipeBody {
    /// Yield strength. [Pa]
    pub yield_strength: f64,
    /// Outside diameter. [m]
    pub outer_diameter: f64,
    /// Wall. [m]
    pub wall: f64,
}

impl PipeBody {
    /// Collapse strength without axial load. [Pa]
    pub fn collapse_strength<R: Recorder>(&self, rec: &mut R) -> f64 {
        let &PipeBody { yield_strength, outer_diameter, wall } = self;
        if wall < 1e-5 || yield_strength <= 0.0 {
            rec.note(|| "no wall or no yield strength is left: no collapse strength".into());
            return 0.0;
        }
        let slenderness = rec.take(Slenderness { outer_diameter, wall });
        if slenderness < 2.0 {
            rec.note(|| "a solid bar is reckoned as a pipe without bore".into());
        }
        // Outside their range the formulas are not asked: in proportion to the yield below it, flat above it.
        let strength = by_regime(yield_strength.clamp(LEAST_YIELD, MOST_YIELD), slenderness.max(2.0), rec);
        if yield_strength < LEAST_YIELD {
            rec.note(|| "the yield strength lies below the range of the coefficients: in proportion to it from there".into());
            return strength * yield_strength / LEAST_YIELD;
        }
        if yield_strength > MOST_YIELD {
            rec.note(|| "the yield strength lies above the range of the coefficients, whose end is used".into());
        }
        strength
    }

    /// Collapse strength under axial stress (tension positive): the regime is chosen again for the equivalent grade.
    ///
    /// Textbooks multiply the rating by the bracket instead, which is lower outside yield collapse. [Pa]
    pub fn collapse_strength_under_tension<R: Recorder>(&self, axial_stress: f64, rec: &mut R) -> f64 {
        if axial_stress <= 0.0 {
            rec.note(|| "the pipe is not in tension: the grade counts in full, compression earns no credit".into());
            return self.collapse_strength(rec);
        }
        let yield_strength = rec.take(EquivalentGrade { yield_strength: self.yield_strength.max(1.0), axial_stress });
        PipeBody { yield_strength, ..*self }.collapse_strength(rec)
    }
}

fn by_regime<R: Recorder>(yield_strength: f64, slenderness: f64, rec: &mut R) -> f64 {
    if slenderness <= rec.take(YieldPlasticLimit { yield_strength }) {
        rec.note(|| "yield collapse".into());
        return rec.take(YieldCollapse { yield_strength, slenderness });
    }
    if slenderness <= rec.take(PlasticTransitionLimit { yield_strength }) {
        rec.note(|| "plastic collapse".into());
        let coefficient_a = rec.take(CoefficientA { yield_strength });
        let coefficient_b = rec.take(CoefficientB { yield_strength });
        let coefficient_c = rec.take(CoefficientC { yield_strength });
        return rec.take(PlasticCollapse { yield_strength, coefficient_a, coefficient_b, coefficient_c, slenderness });
    }
    if slenderness <= rec.take(TransitionElasticLimit { yield_strength }) {
        rec.note(|| "transition collapse".into());
        let coefficient_f = rec.take(CoefficientF { yield_strength });
        let coefficient_g = rec.take(CoefficientG { yield_strength });
        return rec.take(TransitionCollapse { yield_strength, coefficient_f, coefficient_g, slenderness });
    }
    rec.note(|| "elastic collapse".into());
    rec.take(ElasticCollapse { slenderness })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Off;

    /// Neighbouring formulas meet at the limits between them: that is how 5C3 makes the limits.
    #[test]
    fn law_regimes_join() {
        for ksi in [30.0, 40.0, 55.0, 80.0, 110.0, 135.0, 150.0] {
            let yield_strength = ksi * 1000.0 * PSI;
            let limits = [
                YieldPlasticLimit { yield_strength }.value(),
                PlasticTransitionLimit { yield_strength }.value(),
                TransitionElasticLimit { yield_strength }.value(),
            ];
            assert!(limits[0] < limits[1] && limits[1] < limits[2]);
            for limit in limits {
                let below = by_regime(yield_strength, limit * (1.0 - 1e-9), &mut Off);
                let above = by_regime(yield_strength, limit * (1.0 + 1e-9), &mut Off);
                assert!((below / above - 1.0).abs() < 1e-6, "{ksi} ksi at {limit}: {below} {above}");
            }
        }
    }

    /// More tension, more slenderness or less yield never makes a pipe stronger; no jump at the end of the coefficients.
    #[test]
    fn law_collapse_is_monotone() {
        let of = |yield_strength: f64, slenderness: f64, axial_stress: f64| {
            PipeBody { yield_strength, outer_diameter: 0.2, wall: 0.2 / slenderness }
                .collapse_strength_under_tension(axial_stress, &mut Off)
        };
        for slenderness in [5.0, 12.0, 18.0, 25.0, 35.0, 60.0] {
            let mut last = f64::INFINITY;
            for step in 0..=100 {
                let strength = of(110_000.0 * PSI, slenderness, f64::from(step) * 1100.0 * PSI);
                assert!(strength <= last && strength >= 0.0, "D/t {slenderness}, step {step}");
                last = strength;
            }
            assert!(last.abs() < 1e-9, "tension at yield leaves nothing");
            let (below, above) = (of(0.999_999 * LEAST_YIELD, slenderness, 0.0), of(1.000_001 * LEAST_YIELD, slenderness, 0.0));
            assert!((below / above - 1.0).abs() < 1e-5);
        }
    }

    #[test]
    fn law_edges_are_finite() {
        for (yield_strength, outer_diameter, wall, stress) in
            [(0.0, 0.1, 0.01, 0.0), (5e8, 0.1, 0.0, 0.0), (5e8, 0.1, 0.1, 0.0), (5e9, 0.1, 0.01, -1e9), (5e8, 0.0, 0.01, 1e12)]
        {
            let body = PipeBody { yield_strength, outer_diameter, wall };
            let strength = body.collapse_strength_under_tension(stress, &mut Off);
            assert!(strength.is_finite() && strength >= 0.0);
        }
    }
}
