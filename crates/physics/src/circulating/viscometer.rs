//! From the readings of the viscometer to what the loss methods need.
//!
//! [`MudRheology`] is made once for each mud; the losses of every situation then read it without looking at the
//! dial again. The flow model follows the readings: [`fit`](super::fit) uses all of them.

use super::casson::Casson;
use super::fit::{Fit, fit_casson, fit_herschel_bulkley};
use super::passage::Passage;
use super::rheology::*;
use crate::{Kind, Recorder};
use std::f64::consts::PI;
use std::fmt;

/// One reading of the viscometer. The speed keeps the unit of the instrument, since the method is defined by it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Speed of the sleeve. [rpm]
    pub speed_rpm: f64,
    /// Dial reading. [degree of the dial]
    pub dial: f64,
}

impl Reading {
    /// Shear rate at the bob. [1/s]
    pub fn shear_rate(&self) -> f64 {
        self.speed_rpm * PI / 30.0 * SHEAR_PER_SPEED
    }

    /// Stress at the bob. [Pa]
    pub fn stress(&self, convention: DialConvention) -> f64 {
        self.dial * convention.stress_per_degree()
    }
}

/// Flow model to draw through the readings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FlowModel {
    /// Plastic viscosity and yield point from the readings at 600 and 300 rpm.
    Bingham,
    /// Power law from the readings at 600 and 300 rpm.
    PowerLaw,
    /// Power law in two regions: in pipe from the readings at 600 and 300 rpm, in the annulus from those at 100 and 3 rpm.
    PowerLawInTwo,
    /// Yield stress from 2 θ3 - θ6, index and consistency from 600 and 300 rpm: the estimate made by hand.
    HerschelBulkleyEstimate,
    /// Yield stress, index and consistency by weighted least squares over all readings.
    HerschelBulkley,
    /// Yield stress and viscosity at high shear rate by least squares over all readings. What needs a curve of another form takes
    /// the Herschel-Bulkley one through the same readings.
    Casson,
}

impl FlowModel {
    /// In plain words.
    pub const fn name(self) -> &'static str {
        match self {
            FlowModel::Bingham => "Bingham, from the readings at 600 and 300 rpm",
            FlowModel::PowerLaw => "power law, from the readings at 600 and 300 rpm",
            FlowModel::PowerLawInTwo => "power law in two regions",
            FlowModel::HerschelBulkleyEstimate => "Herschel-Bulkley, estimated by hand",
            FlowModel::HerschelBulkley => "Herschel-Bulkley, fitted to all readings",
            FlowModel::Casson => "Casson, fitted to all readings",
        }
    }
}

/// What stands in the way of a flow model.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RheologyError {
    /// The reading at this speed is needed and missing. [rpm]
    Missing(u32),
    /// A reading is not above nought.
    NotPositive,
    /// A reading at a higher speed does not lie above one at a lower speed.
    NotRising,
}

impl fmt::Display for RheologyError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            RheologyError::Missing(speed) => write!(f, "the dial reading at {speed} rpm is missing"),
            RheologyError::NotPositive => f.write_str("a dial reading is not above nought"),
            RheologyError::NotRising => f.write_str("the dial readings do not rise with the speed"),
        }
    }
}

impl std::error::Error for RheologyError {}

/// A mud as the loss methods see it: the whole curve, and what the methods that know only parts of it take.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MudRheology {
    /// The flow model: what the generalised and the exact method take in pipe.
    pub curve: HerschelBulkley,
    /// The same for the annulus; another one only for a power law in two regions.
    pub annulus_curve: HerschelBulkley,
    /// The Casson model, where it was chosen: these two methods then take their laminar stress from it.
    pub casson: Option<Casson>,
    /// Flow index between 300 and 600 rpm, yield included: what the turbulent factors of API RP 13D take. [-]
    pub turbulent_index: f64,
    /// Plastic viscosity: Bingham field method. [Pa·s]
    pub plastic_viscosity: f64,
    /// Yield point: Bingham field method. [Pa]
    pub yield_point: f64,
    /// Power law between 300 and 600 rpm: inside pipe by the method of 1995.
    pub pipe_law: PowerLaw,
    /// Power law between 3 and 100 rpm: in the annulus by the method of 1995.
    pub annulus_law: PowerLaw,
    /// Roughness of the walls that counts with this fluid: that of the pipe for water and clear brine, nought for mud, whose
    /// walls are customarily smooth. [m]
    pub roughness: f64,
}

impl MudRheology {
    /// From a flow model alone: what a viscometer would read in such a fluid.
    pub fn of(rheology: Rheology) -> MudRheology {
        let curve = rheology.herschel_bulkley();
        let at = |speed: f64| Reading { speed_rpm: speed, dial: 0.0 }.shear_rate();
        let point = |rate: f64| (rate, curve.stress(rate));
        let (upper, lower) = (point(SHEAR_600), point(SHEAR_300));
        let pipe_law = PowerLaw::through(upper, lower, &mut crate::Off);
        let annulus_law = PowerLaw::through(point(at(100.0)), point(at(3.0)), &mut crate::Off);
        let plastic_viscosity = (upper.1 - lower.1) / (upper.0 - lower.0);
        MudRheology {
            curve,
            annulus_curve: curve,
            casson: None,
            turbulent_index: pipe_law.flow_index,
            plastic_viscosity,
            yield_point: (lower.1 - plastic_viscosity * lower.0).max(0.0),
            pipe_law,
            annulus_law,
            roughness: 0.0,
        }
    }

    /// The same fluid between rough walls. [m]
    pub fn in_rough_walls(self, roughness: f64) -> MudRheology {
        MudRheology { roughness, ..self }
    }

    /// Stress of the chosen model at a shear rate, as a viscometer would read it. [1/s], [Pa]
    ///
    /// Of a power law in two regions the lower one ends at 100 rpm.
    pub fn stress(&self, shear_rate: f64) -> f64 {
        let slow = shear_rate < 1.001 * Reading { speed_rpm: 100.0, dial: 0.0 }.shear_rate();
        match self.casson {
            Some(casson) => casson.stress(shear_rate),
            None if slow => self.annulus_curve.stress(shear_rate),
            None => self.curve.stress(shear_rate),
        }
    }

    /// The curve that holds in a passage.
    pub fn curve_in(&self, passage: &Passage) -> &HerschelBulkley {
        match passage {
            Passage::Bore { .. } => &self.curve,
            Passage::Annulus { .. } => &self.annulus_curve,
        }
    }

    /// From readings, in any order; those at 300 and 600 rpm are always needed, those at 3 and 6 rpm for the
    /// hand estimate. Where 3 or 100 rpm was not read, the curve stands for it.
    pub fn from_readings<R: Recorder>(
        readings: &[Reading],
        model: FlowModel,
        convention: DialConvention,
        rec: &mut R,
    ) -> Result<(MudRheology, Option<Fit>), RheologyError> {
        let stress = Stresses { readings, convention };
        stress.check()?;
        rec.table("viscometer", VISCOMETER, || stress.rows());
        let (dial_600, dial_300) = (stress.dial(600)?, stress.dial(300)?);
        let plastic_viscosity = rec.take(PlasticViscosity { dial_600, dial_300 });
        let yield_point = rec.take(YieldPoint { dial_600, dial_300 }).max(0.0);
        let pipe_law = PowerLaw::through(stress.point(600)?, stress.point(300)?, rec);
        let (curve, fit) = match model {
            FlowModel::Bingham => (Rheology::Bingham { plastic_viscosity, yield_point }.herschel_bulkley(), None),
            FlowModel::PowerLaw | FlowModel::PowerLawInTwo => (unyielding(&pipe_law), None),
            FlowModel::HerschelBulkleyEstimate => (stress.estimate(yield_point, rec)?, None),
            FlowModel::HerschelBulkley | FlowModel::Casson => {
                let fit = fit_herschel_bulkley(&stress.points(), rec);
                (fit.curve, Some(fit))
            }
        };
        let or_curve = |speed: u32| stress.point(speed).unwrap_or_else(|_| on_curve(&curve, speed));
        let annulus_law = PowerLaw::through(or_curve(100), or_curve(3), rec);
        let turbulent_index = pipe_law.flow_index;
        let annulus_curve = if model == FlowModel::PowerLawInTwo { unyielding(&annulus_law) } else { curve };
        let casson = (model == FlowModel::Casson).then(|| fit_casson(&stress.points(), rec));
        let mud = MudRheology {
            curve,
            annulus_curve,
            casson,
            turbulent_index,
            plastic_viscosity,
            yield_point,
            pipe_law,
            annulus_law,
            roughness: 0.0,
        };
        Ok((mud, fit))
    }
}

/// A power law as a curve without yield stress.
fn unyielding(law: &PowerLaw) -> HerschelBulkley {
    HerschelBulkley { yield_stress: 0.0, consistency: law.consistency, flow_index: law.flow_index }
}

fn on_curve(curve: &HerschelBulkley, speed: u32) -> (f64, f64) {
    let rate = Reading { speed_rpm: f64::from(speed), dial: 0.0 }.shear_rate();
    (rate, curve.stress(rate))
}

const VISCOMETER: &[(&str, Kind)] =
    &[("dial reading", Kind::Dial), ("shear rate", Kind::ShearRate), ("stress", Kind::ShearStress)];

/// Readings looked at as stresses.
struct Stresses<'a> {
    readings: &'a [Reading],
    convention: DialConvention,
}

impl Stresses<'_> {
    fn check(&self) -> Result<(), RheologyError> {
        if !self.readings.iter().all(|reading| reading.dial > 0.0 && reading.dial.is_finite() && reading.speed_rpm > 0.0) {
            return Err(RheologyError::NotPositive);
        }
        let above = |low: &Reading, high: &Reading| low.speed_rpm < high.speed_rpm && low.dial > high.dial;
        let falls = self.readings.iter().any(|low| self.readings.iter().any(|high| above(low, high)));
        if falls || self.dial(600)? <= self.dial(300)? { Err(RheologyError::NotRising) } else { Ok(()) }
    }

    fn find(&self, speed: u32) -> Result<&Reading, RheologyError> {
        let found = self.readings.iter().find(|reading| (reading.speed_rpm - f64::from(speed)).abs() < 1e-6);
        found.ok_or(RheologyError::Missing(speed))
    }

    fn dial(&self, speed: u32) -> Result<f64, RheologyError> {
        self.find(speed).map(|reading| reading.dial)
    }

    fn point(&self, speed: u32) -> Result<(f64, f64), RheologyError> {
        self.find(speed).map(|reading| (reading.shear_rate(), reading.stress(self.convention)))
    }

    fn points(&self) -> Vec<(f64, f64)> {
        self.readings.iter().map(|reading| (reading.shear_rate(), reading.stress(self.convention))).collect()
    }

    fn rows(&self) -> Vec<Vec<f64>> {
        self.readings.iter().map(|reading| vec![reading.dial, reading.shear_rate(), reading.stress(self.convention)]).collect()
    }

    /// The estimate made by hand; the yield stress is kept between nought and the yield point.
    fn estimate<R: Recorder>(&self, yield_point: f64, rec: &mut R) -> Result<HerschelBulkley, RheologyError> {
        let stress_per_degree = self.convention.stress_per_degree();
        let low = rec.take(LowShearYield { dial_6: self.dial(6)?, dial_3: self.dial(3)?, stress_per_degree });
        let yield_stress = low.clamp(0.0, yield_point);
        if low < 0.0 || low > yield_point {
            rec.note(|| "yield stress kept between nought and the yield point".to_owned());
        }
        let less = |(rate, stress): (f64, f64)| (rate, stress - yield_stress);
        let PowerLaw { consistency, flow_index } = PowerLaw::through(less(self.point(600)?), less(self.point(300)?), rec);
        Ok(HerschelBulkley { yield_stress, consistency, flow_index })
    }
}
