//! The sample at the shaker from what was really drilled and pumped: depth and stroke counter read while drilling.

use super::figures::cuttings_rise;
use super::pumps::pump_output;
use crate::{Answer, Figure, Scene, sweep};
use rigwright_physics::circulating::passage::LagStrokes;
use rigwright_physics::{Off, Recorder, Root, numerics};
use rigwright_units::Kind;
use rigwright_well::{Operation, Progress};

const NOT_UP: Answer = Answer::DoesNotArise("nothing of what was drilled since the first reading is at the shaker yet");

/// The depth whose sample is at the shaker now, and the next that is due, by readings of depth and strokes.
pub(super) fn by_progress<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let section = scene.section();
    let (Some(first), Some(now)) = (section.progress.first(), section.progress.last()) else { return NOT_UP };
    let Some(pump_output) = pump_output(scene, rec) else { return Answer::Missing(vec!["rig.pump.rod"]) };
    rec.heading("readings");
    let columns: &[(&str, Kind)] = &[("depth of the hole", Kind::Depth), ("strokes", Kind::Count)];
    rec.table("depth and stroke counter", columns, || section.progress.iter().map(|row| vec![row.depth, row.strokes]).collect());
    let lag = |depth: f64| lag_strokes(scene, depth, pump_output, &mut Off);
    // What was made at a depth comes up when the counter has run on by its lag.
    let late = |depth: f64| lag(depth).map_or(f64::NAN, |lag| strokes_at(&section.progress, depth) + lag - now.strokes);
    if lag(now.depth).is_none() {
        return Answer::DoesNotArise("the cuttings do not rise in every annulus");
    }
    // No root where even the first reading is not up yet.
    let Some(here) = numerics::root(late, first.depth, now.depth) else { return NOT_UP };
    rec.heading("lag of the sample at the shaker");
    lag_strokes(scene, here, pump_output, rec);
    rec.root(Root {
        equation: "strokes when that depth was drilled, and its lag, less strokes now = 0",
        sign: "D",
        meaning: "depth of the sample at the shaker",
        kind: Kind::Depth,
        value: here,
        residual: late(here),
        residual_kind: Kind::Count,
    });
    let figure = |name, value, kind| Figure { name, value, kind };
    let mut figures = vec![
        figure("hole", now.depth, Kind::Depth),
        figure("sample at the shaker is from", here, Kind::Depth),
        figure("strokes of its lag", now.strokes - strokes_at(&section.progress, here), Kind::Count),
    ];
    if let Some(interval) = section.cleaning.sample_interval {
        let next = (here / interval).floor() * interval + interval;
        rec.given("depth from one sample to the next", interval, Kind::Depth);
        rec.given("next multiple of it below the sample at the shaker", next, Kind::Depth);
        figures.push(figure("next sample is from", next, Kind::Depth));
        if next <= now.depth {
            let strokes = late(next);
            rec.given("strokes until it is at the shaker", strokes, Kind::Count);
            figures.push(figure("it is at the shaker in strokes", strokes, Kind::Count));
            figures.push(figure("it is at the shaker in", strokes * pump_output / scene.situation.flow_rate, Kind::Time));
        } else {
            rec.note(|| "It is not drilled yet.".to_owned());
        }
    }
    Answer::Told(figures)
}

/// Strokes while cuttings rise from a bit at this depth, each annulus with its own slip; `None` where they do not rise.
fn lag_strokes<R: Recorder>(scene: &Scene, depth: f64, pump_output: f64, rec: &mut R) -> Option<f64> {
    let then = sweep::situation(scene.fit(), scene.situation.section, Operation::Drilling, depth, depth);
    let scene = Scene::new(scene.basis, then);
    let rise = cuttings_rise(&scene, rec)?;
    rec.given("time of the rise", rise, Kind::Time);
    let volume = rise * scene.situation.flow_rate;
    rec.given("mud pumped in that time", volume, Kind::Volume);
    Some(rec.take(LagStrokes { volume, pump_output }))
}

/// The counter when the hole had this depth; the last reading of a depth that was read several times.
fn strokes_at(progress: &[Progress], depth: f64) -> f64 {
    let points: Vec<(f64, f64)> = progress.iter().map(|row| (row.depth, row.strokes)).collect();
    numerics::interpolate(&points, depth).unwrap_or_default()
}
