//! The kill sheet: kill mud weight, circulating pressures, strokes, and the drill pipe pressure while kill mud fills
//! the string.
//!
//! The schedule follows the vertical depth of the front of the kill mud and the share of the friction that it
//! already carries, so it holds for any path and any string. Volumes by measured depth, pressures by vertical.

use super::rounding::round_up;
use crate::{Formula, FormulaRecord, Kind, Recorder, STANDARD_GRAVITY, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[
    <KillMudWeight as Formula>::RECORD,
    <InitialCirculatingPressure as Formula>::RECORD,
    <FinalCirculatingPressure as Formula>::RECORD,
    <KillStrokes as Formula>::RECORD,
    <PumpingTime as Formula>::RECORD,
    <SchedulePressure as Formula>::RECORD,
    <SchedulePressureByWeight as Formula>::RECORD,
    <StraightSchedulePressure as Formula>::RECORD,
    <PressureStep as Formula>::RECORD,
    <RevisedSlowPressure as Formula>::RECORD,
];

formula! {
    /// Mud weight that just holds the formation back, before rounding up.
    pub struct KillMudWeight;
    slug "kill-mud-weight";
    equation "KMW = MW + SIDPP / (g D)";
    law Homogeneous;
    source "fluid statics; Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 4";
    given {
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
        /// shut-in drill pipe pressure
        drill_pipe_pressure "SIDPP" Pressure must NON_NEGATIVE;
        /// vertical depth of the bit
        vertical_depth "D" Depth must POSITIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// kill mud weight
    gives "KMW" Density;
    value |f| f.mud_weight + f.drill_pipe_pressure / (f.gravity * f.vertical_depth)
}

formula! {
    /// Drill pipe pressure when the pump has come to the slow rate and the string holds old mud.
    pub struct InitialCirculatingPressure;
    slug "initial-circulating-pressure";
    equation "ICP = SIDPP + SCR";
    law Homogeneous;
    source "fluid statics; Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 4";
    given {
        /// shut-in drill pipe pressure
        drill_pipe_pressure "SIDPP" Pressure must NON_NEGATIVE;
        /// slow circulating rate pressure
        slow_pressure "SCR" Pressure must NON_NEGATIVE;
    }
    /// initial circulating pressure
    gives "ICP" Pressure;
    value |f| f.drill_pipe_pressure + f.slow_pressure
}

formula! {
    /// Drill pipe pressure when kill mud is at the bit.
    pub struct FinalCirculatingPressure;
    slug "final-circulating-pressure";
    equation "FCP = SCR KMW / MW";
    law Homogeneous;
    source "friction in proportion to density; Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 4";
    given {
        /// slow circulating rate pressure
        slow_pressure "SCR" Pressure must NON_NEGATIVE;
        /// kill mud weight
        kill_weight "KMW" Density must POSITIVE;
        /// mud weight when the slow rate was read
        mud_weight "MW" Density must POSITIVE;
    }
    /// final circulating pressure
    gives "FCP" Pressure;
    value |f| f.slow_pressure * f.kill_weight / f.mud_weight
}

formula! {
    /// Strokes that pump a volume.
    pub struct KillStrokes;
    slug "strokes-for-volume";
    equation "n = V / PO";
    law Homogeneous;
    source "definition of pump output";
    given {
        /// volume to be pumped
        volume "V" Volume must NON_NEGATIVE;
        /// pump output per stroke
        pump_output "PO" VolumePerStroke must POSITIVE;
    }
    /// strokes
    gives "n" Count;
    value |f| f.volume / f.pump_output
}

formula! {
    /// Time that a number of strokes takes.
    pub struct PumpingTime;
    slug "time-for-strokes";
    equation "t = n / spm";
    law Homogeneous;
    source "definition of pump speed";
    given {
        /// strokes
        strokes "n" Count must NON_NEGATIVE;
        /// pump speed
        pump_speed "spm" StrokeRate must POSITIVE;
    }
    /// time
    gives "t" Time;
    value |f| f.strokes / f.pump_speed
}

formula! {
    /// Drill pipe pressure while kill mud fills the string, meeting both ends exactly.
    ///
    /// What rounding up puts on the kill weight stays as overbalance all the way. In a lateral the pressure rises
    /// a little, since friction grows and depth does not.
    pub struct SchedulePressure;
    slug "schedule-pressure";
    equation "P = SIDPP (1 - D_front/D) + SCR (1 + (KMW/MW - 1) φ)";
    law Homogeneous;
    source "fluid statics of the string with two muds, friction in proportion to density";
    given {
        /// shut-in drill pipe pressure
        drill_pipe_pressure "SIDPP" Pressure must NON_NEGATIVE;
        /// slow circulating rate pressure
        slow_pressure "SCR" Pressure must NON_NEGATIVE;
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
        /// kill mud weight
        kill_weight "KMW" Density must POSITIVE;
        /// share of the vertical depth of the bit that the front of the kill mud has come down
        depth_share "D_front/D" Fraction must between(0.0, 2.0) valid between(0.0, 1.0);
        /// share of the friction that kill mud already carries
        friction_share "φ" Fraction must FRACTION;
    }
    /// drill pipe pressure
    gives "P" Pressure;
    value |f| {
        let friction = f.slow_pressure * (1.0 + (f.kill_weight / f.mud_weight - 1.0) * f.friction_share);
        f.drill_pipe_pressure * (1.0 - f.depth_share) + friction
    }
}

formula! {
    /// Drill pipe pressure while kill mud fills the string, by the weight of the kill mud: the training sheet's form.
    ///
    /// Holds formation pressure exactly whatever the kill weight, so with a rounded weight it does not meet the
    /// final circulating pressure: the sheet draws a straight line to it from the end of build.
    pub struct SchedulePressureByWeight;
    slug "schedule-pressure-by-weight";
    equation "P = SIDPP - (KMW - MW) g D_front + SCR (1 + (KMW/MW - 1) φ)";
    law Homogeneous;
    source "deviated kill sheet of well-control training, from memory";
    given {
        /// shut-in drill pipe pressure
        drill_pipe_pressure "SIDPP" Pressure must NON_NEGATIVE;
        /// slow circulating rate pressure
        slow_pressure "SCR" Pressure must NON_NEGATIVE;
        /// mud weight
        mud_weight "MW" Density must POSITIVE;
        /// kill mud weight
        kill_weight "KMW" Density must POSITIVE;
        /// vertical depth of the front of the kill mud
        front_depth "D_front" Depth must NON_NEGATIVE;
        /// share of the friction that kill mud already carries
        friction_share "φ" Fraction must FRACTION;
        /// acceleration of free fall
        gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// drill pipe pressure
    gives "P" Pressure;
    value |f| {
        let friction = f.slow_pressure * (1.0 + (f.kill_weight / f.mud_weight - 1.0) * f.friction_share);
        f.drill_pipe_pressure - (f.kill_weight - f.mud_weight) * f.gravity * f.front_depth + friction
    }
}

formula! {
    /// Drill pipe pressure on the straight line from initial to final circulating pressure.
    ///
    /// Right for a vertical well with one size of pipe only; elsewhere it loads the weak point or lets the well in.
    pub struct StraightSchedulePressure;
    slug "straight-schedule-pressure";
    equation "P = ICP - (ICP - FCP) n/n_bit";
    law Homogeneous;
    source "Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 4";
    given {
        /// initial circulating pressure
        initial_pressure "ICP" Pressure must NON_NEGATIVE;
        /// final circulating pressure
        final_pressure "FCP" Pressure must NON_NEGATIVE;
        /// share of the strokes to the bit
        stroke_share "n/n_bit" Fraction must FRACTION;
    }
    /// drill pipe pressure
    gives "P" Pressure;
    value |f| f.initial_pressure - (f.initial_pressure - f.final_pressure) * f.stroke_share
}

formula! {
    /// Fall of the drill pipe pressure per stroke, or per step, on the straight line.
    pub struct PressureStep;
    slug "pressure-per-stroke";
    equation "ΔP = (ICP - FCP) / n";
    law Homogeneous;
    source "Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed. 2002, ch. 4";
    given {
        /// initial circulating pressure
        initial_pressure "ICP" Pressure must NON_NEGATIVE;
        /// final circulating pressure
        final_pressure "FCP" Pressure must NON_NEGATIVE;
        /// strokes to the bit, or number of steps
        strokes "n" Count must POSITIVE;
    }
    /// fall of pressure per stroke or step
    gives "ΔP" Pressure;
    value |f| (f.initial_pressure - f.final_pressure) / f.strokes
}

formula! {
    /// Slow circulating rate pressure as the start of the kill shows it.
    pub struct RevisedSlowPressure;
    slug "revised-slow-pressure";
    equation "SCR = ICP_read - SIDPP";
    law Homogeneous;
    source "common practice: casing pressure held while the pump comes to rate, then the gauge believed";
    given {
        /// drill pipe pressure read when the pump is at rate
        pressure_read "ICP_read" Pressure must NON_NEGATIVE;
        /// shut-in drill pipe pressure
        drill_pipe_pressure "SIDPP" Pressure must NON_NEGATIVE;
    }
    /// slow circulating rate pressure
    gives "SCR" Pressure;
    value |f| f.pressure_read - f.drill_pipe_pressure
}

/// What a kill starts from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KillData {
    /// Mud weight. [kg/m³]
    pub mud_weight: f64,
    /// Shut-in drill pipe pressure. [Pa]
    pub drill_pipe_pressure: f64,
    /// Slow circulating rate pressure with this mud. [Pa]
    pub slow_pressure: f64,
    /// Vertical depth of the bit. [m]
    pub vertical_depth: f64,
    /// Step of a kill mud weight that can be mixed and read. [kg/m³]
    pub weight_step: f64,
    /// Acceleration of free fall. [m/s²]
    pub gravity: f64,
}

/// Weight and pressures of a kill.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kill {
    /// Kill mud weight before rounding. [kg/m³]
    pub exact_weight: f64,
    /// Kill mud weight, rounded up. [kg/m³]
    pub kill_weight: f64,
    /// Initial circulating pressure. [Pa]
    pub initial_pressure: f64,
    /// Final circulating pressure, with the rounded weight. [Pa]
    pub final_pressure: f64,
}

impl KillData {
    /// Weight and pressures.
    pub fn kill<R: Recorder>(&self, rec: &mut R) -> Kill {
        let KillData { mud_weight, drill_pipe_pressure, slow_pressure, vertical_depth, weight_step, gravity } = *self;
        let exact_weight = rec.take(KillMudWeight { mud_weight, drill_pipe_pressure, vertical_depth, gravity });
        let kill_weight = round_up(exact_weight, weight_step);
        rec.note(|| "The kill mud weight is rounded up to the next step that can be mixed.".into());
        Kill {
            exact_weight,
            kill_weight,
            initial_pressure: rec.take(InitialCirculatingPressure { drill_pipe_pressure, slow_pressure }),
            final_pressure: rec.take(FinalCirculatingPressure { slow_pressure, kill_weight, mud_weight }),
        }
    }

    /// Drill pipe pressure as the front of the kill mud comes down, by [`SchedulePressure`].
    pub fn schedule<R: Recorder>(&self, rec: &mut R, kill_weight: f64, fronts: &[Front]) -> Vec<f64> {
        let pressure = |front: &Front| SchedulePressure {
            drill_pipe_pressure: self.drill_pipe_pressure,
            slow_pressure: self.slow_pressure,
            mud_weight: self.mud_weight,
            kill_weight,
            depth_share: front.vertical_depth / self.vertical_depth,
            friction_share: front.friction_share,
        };
        let pressures: Vec<f64> = fronts.iter().map(|front| pressure(front).value()).collect();
        if R::ON {
            for front in fronts.first().into_iter().chain(fronts.last()) {
                rec.take(pressure(front));
            }
        }
        rec.table(
            "drill pipe pressure against volume of kill mud",
            &[("volume", Kind::Volume), ("front, vertical", Kind::Depth), ("drill pipe pressure", Kind::Pressure)],
            || fronts.iter().zip(&pressures).map(|(front, p)| vec![front.volume, front.vertical_depth, *p]).collect(),
        );
        pressures
    }
}

/// The front of the kill mud on its way down the string.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Front {
    /// Volume of kill mud pumped. [m³]
    pub volume: f64,
    /// Vertical depth of the front. [m]
    pub vertical_depth: f64,
    /// Share of the slow-rate friction that kill mud carries, bit included. [-]
    pub friction_share: f64,
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Off;

    const DATA: KillData = KillData {
        mud_weight: 1198.0,
        drill_pipe_pressure: 3.1e6,
        slow_pressure: 4.1e6,
        vertical_depth: 2590.0,
        weight_step: 10.0,
        gravity: STANDARD_GRAVITY,
    };

    #[test]
    fn law_schedule_meets_icp_and_fcp_exactly() {
        let kill = DATA.kill(&mut Off);
        let front = |vertical_depth, friction_share| Front { volume: 0.0, vertical_depth, friction_share };
        let pressures = DATA.schedule(&mut Off, kill.kill_weight, &[front(0.0, 0.0), front(1500.0, 0.4), front(2590.0, 1.0)]);
        assert!((pressures[0] - kill.initial_pressure).abs() < 1e-6);
        assert!((pressures[2] - kill.final_pressure).abs() < 1e-6);
        assert!(pressures[0] > pressures[1] && pressures[1] > pressures[2]);
    }

    #[test]
    fn law_both_schedules_are_one_with_the_exact_weight() {
        let exact = DATA.kill(&mut Off).exact_weight;
        for share in [0.0, 0.3, 0.7, 1.0] {
            let by_depth = SchedulePressure {
                drill_pipe_pressure: DATA.drill_pipe_pressure,
                slow_pressure: DATA.slow_pressure,
                mud_weight: DATA.mud_weight,
                kill_weight: exact,
                depth_share: share,
                friction_share: share,
            };
            let by_weight = SchedulePressureByWeight {
                drill_pipe_pressure: DATA.drill_pipe_pressure,
                slow_pressure: DATA.slow_pressure,
                mud_weight: DATA.mud_weight,
                kill_weight: exact,
                front_depth: share * DATA.vertical_depth,
                friction_share: share,
                gravity: DATA.gravity,
            };
            assert!((by_depth.value() - by_weight.value()).abs() < 1e-6);
        }
    }

    #[test]
    fn law_kill_weight_is_rounded_up_and_never_below_need() {
        let kill = DATA.kill(&mut Off);
        assert!(kill.kill_weight >= kill.exact_weight && kill.kill_weight < kill.exact_weight + 10.0);
        let dead = KillData { drill_pipe_pressure: 0.0, mud_weight: 1200.0, ..DATA }.kill(&mut Off);
        assert!((dead.kill_weight - 1200.0).abs() < 1e-9);
    }
}
