//! Which flow model runs best through the readings of a mud.
//!
//! Each model is drawn as the losses would take it and held against all readings. Models with more numbers to turn fit
//! better for that reason alone, so the errors are counted over the readings that are left when each number has used up one.
//!
//! Bingham is drawn by the trade's plastic viscosity and yield point, whose degrees of the dial are not the same (1.067 and
//! 1 lbf/100 ft²): it misses even readings on a straight line, which Herschel-Bulkley then takes with an index of one.

use super::fit::fit_casson;
use super::rheology::DialConvention;
use super::viscometer::{FlowModel, MudRheology, Reading, RheologyError};
use crate::{Kind, Off, Recorder};

/// Models that are tried, simplest first; how many numbers each has, and what its error is called.
const TRIED: [(FlowModel, usize, &str); 5] = [
    (FlowModel::Bingham, 2, "error of Bingham"),
    (FlowModel::PowerLaw, 2, "error of the power law"),
    (FlowModel::Casson, 2, "error of Casson"),
    (FlowModel::HerschelBulkley, 3, "error of Herschel-Bulkley"),
    (FlowModel::PowerLawInTwo, 4, "error of the power law in two regions"),
];

/// A model and how far it misses the readings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Candidate {
    /// The model.
    pub model: FlowModel,
    /// Root of the sum of the squares of the relative errors over the readings left; `None` when none is left to test it. [-]
    pub error: Option<f64>,
    /// Largest relative error of a reading, with its sign: model less reading. [-]
    pub worst: f64,
}

/// Every model that can be drawn through the readings, with its errors and the mud that it makes; without the mud of Casson, whose
/// curve for other uses takes a second fit.
fn drawn(readings: &[Reading], convention: DialConvention) -> Result<Vec<(Candidate, Option<MudRheology>)>, RheologyError> {
    let points: Vec<(f64, f64)> = readings.iter().map(|one| (one.shear_rate(), one.stress(convention))).collect();
    let mut found = Vec::with_capacity(TRIED.len());
    for (model, numbers, _) in TRIED {
        found.push(if model == FlowModel::Casson {
            let casson = fit_casson(&points, &mut Off);
            (held(model, &points, numbers, |rate| casson.stress(rate)), None)
        } else {
            let (mud, _) = MudRheology::from_readings(readings, model, convention, &mut Off)?;
            (held(model, &points, numbers, |rate| mud.stress(rate)), Some(mud))
        });
    }
    Ok(found)
}

/// A model held against points of shear rate and stress.
fn held(model: FlowModel, points: &[(f64, f64)], numbers: usize, stress: impl Fn(f64) -> f64) -> Candidate {
    let (mut squares, mut worst) = (0.0, 0.0_f64);
    for (rate, read) in points {
        let error = stress(*rate) / read - 1.0;
        squares += error * error;
        worst = if error.abs() > worst.abs() { error } else { worst };
    }
    let left = points.len().saturating_sub(numbers);
    Candidate { model, error: (left > 0).then(|| (squares / left as f64).sqrt()), worst }
}

/// The mud by the model that fits best: the smallest error, the simpler of equals; Bingham when nothing tests a model.
pub fn best_fit<R: Recorder>(
    readings: &[Reading],
    convention: DialConvention,
    rec: &mut R,
) -> Result<(MudRheology, Candidate), RheologyError> {
    let tried = drawn(readings, convention)?;
    rec.heading("choice of the flow model");
    for ((candidate, _), (_, _, name)) in tried.iter().zip(TRIED) {
        if let Some(error) = candidate.error {
            rec.given(name, error, Kind::Fraction);
        }
    }
    let (mut best, mut made) = tried[0];
    for (candidate, mud) in tried {
        if candidate.error.is_some_and(|error| best.error.is_none_or(|least| error < least)) {
            (best, made) = (candidate, mud);
        }
    }
    rec.note(|| match best.error {
        Some(_) => format!(
            "{} is taken: of all it misses the readings least, each number of a model counted as one reading used up",
            best.model.name()
        ),
        None => "Bingham is taken: two readings test no model".to_owned(),
    });
    match made {
        Some(mud) if !R::ON => Ok((mud, best)),
        _ => Ok((MudRheology::from_readings(readings, best.model, convention, rec)?.0, best)),
    }
}
