//! What a floating rig adds: the column when the riser is lost, and the loss in the choke line that takes its place.

use super::kill::{deepest_reading, kill_mud_weight};
use crate::circulating::pumps::pump_output;
use crate::fields::influx;
use crate::fields::open_hole::Point;
use crate::{Answer, Judged, Limit, Place, Scene, worst};
use rigwright_physics::circulating::column::{EquivalentMudWeight, Hydrostatic};
use rigwright_physics::circulating::losses::{Flow, Stretch, stretch_loss};
use rigwright_physics::circulating::passage::Passage;
use rigwright_physics::control::subsea::{FrictionWithWeight, RiserMargin};
use rigwright_physics::{Formula, Kind, Off, Recorder};
use rigwright_well::SlowRate;

const NOT_SUBSEA: Answer = Answer::DoesNotArise("preventers at surface: no riser");

/// The well stays balanced without its riser.
pub(super) fn riser_margin<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let Some((_, bed)) = fit.riser(scene.situation.section).zip(fit.well.sea_bed()) else { return NOT_SUBSEA };
    let (gravity, sea_water, water_depth) = (scene.gravity(), scene.sea_density(), fit.well.water_depth);
    let mud = scene.section().mud.weight;
    let equivalent = |pressure, point: &Point| EquivalentMudWeight { pressure, vertical_depth: point.vertical_depth, gravity };
    let above = Hydrostatic { density: sea_water, vertical_depth: water_depth, gravity };
    let below = |point: &Point| Hydrostatic { density: mud, vertical_depth: point.vertical_depth - bed, gravity };
    let left = |point: &Point| above.value() + below(point).value();
    let judge = |point: &Point| {
        let capacity = equivalent(left(point), point).value();
        let limit = Limit { capacity, reserve: fit.well.margins.trip, name: "mud and sea without riser", source: "mud weight" };
        Judged { demand: equivalent(point.floor(), point).value(), limit, place: Place::Depth(point.depth), zero: 0.0 }
    };
    let points = scene.prepared_flow().open_hole.points();
    let lowest = points.iter().min_by(|a, b| judge(a).room().total_cmp(&judge(b).room()));
    let Some(point) = lowest else { return Answer::DoesNotArise("no open hole") };
    if R::ON {
        rec.heading("at the governing depth");
        rec.given("measured depth", point.depth, Kind::Depth);
        rec.given("pore or collapse pressure, the larger", point.floor(), Kind::Pressure);
        rec.take(equivalent(point.floor(), point));
        rec.heading("riser lost: the sea above the sea bed, mud below");
        let pressure = rec.take(above) + rec.take(below(point));
        rec.given("both together", pressure, Kind::Pressure);
        rec.take(equivalent(pressure, point));
        rec.heading("mud weight to be added to what balances the formation");
        let balance_weight = equivalent(point.floor(), point).value();
        let (air_gap, height) = (fit.well.elevation, point.vertical_depth - bed);
        if height > 0.0 {
            let margin = rec.take(RiserMargin { balance_weight, sea_water, water_depth, air_gap, height });
            rec.given("mud weight that just balances it without riser", balance_weight + margin, Kind::Density);
        }
        rec.given("mud in use", mud, Kind::Density);
    }
    Answer::Judged(judge(point))
}

/// Loss in the choke line at a flow with mud of a weight, by the section's flow curve. [Pa]
pub(crate) fn line_loss<R: Recorder>(scene: &Scene, flow: Flow, rec: &mut R) -> Option<f64> {
    let fit = scene.fit();
    let (riser, length) = fit.riser(scene.situation.section).zip(fit.well.sea_bed())?;
    let prepared = scene.prepared_flow();
    let passage = Passage::Bore { inner_diameter: riser.choke_line };
    Some(stretch_loss(prepared.method, prepared.mud.as_ref()?, &Stretch { passage, length }, flow, rec))
}

/// Loss in the choke line at the slow rate with mud of a weight: as measured, else by the flow curve. `None` without riser, slow rate,
/// pump output or flow curve. [Pa]
pub(super) fn slow_rate_loss<R: Recorder>(scene: &Scene, other_weight: f64, rec: &mut R) -> Option<f64> {
    reading_loss(scene, deepest_reading(scene)?, other_weight, rec)
}

/// The same at one slow rate. [Pa]
pub(crate) fn reading_loss<R: Recorder>(scene: &Scene, slow: &SlowRate, other_weight: f64, rec: &mut R) -> Option<f64> {
    scene.fit().riser(scene.situation.section)?;
    rec.heading("loss in the choke line at the slow rate");
    if let Some(loss) = slow.choke_line_loss {
        return Some(rec.take(FrictionWithWeight { loss, mud_weight: slow.weight, other_weight }));
    }
    let output = pump_output(scene, rec)?;
    rec.given("slow pump speed", slow.pump_speed, Kind::StrokeRate);
    rec.given("times the output of a stroke", slow.pump_speed * output, Kind::FlowRate);
    line_loss(scene, Flow { rate: slow.pump_speed * output, density: other_weight }, rec)
}

/// The rock bears the loss in the choke line on top of the kill mud.
pub(super) fn choke_line<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    if fit.riser(scene.situation.section).is_none() {
        return NOT_SUBSEA;
    }
    if !super::can_shut_in(scene) {
        return super::DIVERTED;
    }
    let Some(intensity) = fit.well.kick.intensity else { return Answer::Missing(vec!["kick.intensity"]) };
    if deepest_reading(scene).is_none() {
        return Answer::Missing(vec!["section[].slow_rate[]"]);
    }
    let measured = deepest_reading(scene).is_some_and(|slow| slow.choke_line_loss.is_some());
    if !measured && pump_output(scene, &mut Off).is_none() {
        return Answer::Missing(vec!["rig.pump.rod"]);
    }
    let kill = kill_mud_weight(scene, intensity, rec);
    let Some(loss) = slow_rate_loss(scene, kill, rec) else { return Answer::Missing(vec!["section[].mud.readings"]) };
    let as_weight = |pressure, point: &Point| EquivalentMudWeight {
        pressure,
        vertical_depth: point.vertical_depth,
        gravity: scene.gravity(),
    };
    let points = scene.prepared_flow().open_hole.points();
    let judge = |point: &Point| {
        let (name, source) = if point.tested {
            ("shoe test", "leak-off or integrity test of the shoe")
        } else {
            ("fracture pressure", "formations of the well file")
        };
        let capacity = as_weight(influx::strength(scene, point, &mut Off)?, point).value();
        let limit = Limit { capacity, reserve: fit.well.margins.fracture, name, source };
        let demand = kill + as_weight(loss, point).value();
        Some(Judged { demand, limit, place: Place::Depth(point.depth), zero: 0.0 })
    };
    let Some(worst) = worst(points.iter().filter_map(judge)) else { return Answer::Missing(vec!["formation[].fracture"]) };
    if worst.room() >= 0.0 && points.iter().any(|point| point.fracture.is_none()) {
        return Answer::Missing(vec!["formation[].fracture"]);
    }
    if R::ON {
        rec.heading("at the weakest depth, as a mud weight");
        let weakest = points.iter().find(|point| judge(point).is_some_and(|judged| judged == worst));
        if let Some(point) = weakest {
            rec.given("measured depth", point.depth, Kind::Depth);
            influx::strength(scene, point, rec);
            rec.take(as_weight(loss, point));
            rec.given("kill mud and loss together", worst.demand, Kind::Density);
            rec.take(as_weight(influx::strength(scene, point, &mut Off).unwrap_or_default(), point));
        }
        other_line(scene, kill, loss, rec);
    }
    Answer::Judged(worst)
}

/// Choke and kill line side by side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct SideBySide {
    /// Share of the flow in the choke line, so that both lose the same. [-]
    pub(crate) share: f64,
    /// Loss of both over that of the choke line alone, by the flow curve. [-]
    pub(crate) of_one: f64,
}

/// How the flow parts between choke and kill line, and what that takes off; `None` without riser or flow curve.
pub(crate) fn side_by_side(scene: &Scene, flow: Flow) -> Option<SideBySide> {
    let fit = scene.fit();
    let (riser, length) = fit.riser(scene.situation.section).zip(fit.well.sea_bed())?;
    let prepared = scene.prepared_flow();
    let mud = prepared.mud.as_ref()?;
    let through = |inner_diameter: f64, share: f64| {
        let stretch = Stretch { passage: Passage::Bore { inner_diameter }, length };
        stretch_loss(prepared.method, mud, &stretch, Flow { rate: share * flow.rate, ..flow }, &mut Off)
    };
    // Both lines lose the same; what one takes the other does not.
    let excess = |share: f64| through(riser.choke_line, share) - through(riser.kill_line, 1.0 - share);
    let share = rigwright_physics::numerics::root(excess, 0.0, 1.0)?;
    let alone = through(riser.choke_line, 1.0);
    (alone > 0.0).then(|| SideBySide { share, of_one: through(riser.choke_line, share) / alone })
}

/// What the kill line beside it would take off.
fn other_line<R: Recorder>(scene: &Scene, kill: f64, loss: f64, rec: &mut R) {
    let Some(slow) = deepest_reading(scene) else { return };
    let Some(output) = pump_output(scene, &mut Off) else { return };
    let Some(both) = side_by_side(scene, Flow { rate: slow.pump_speed * output, density: kill }) else { return };
    rec.heading("with choke and kill line side by side");
    rec.given("share of the flow in the choke line, so that both lose the same", both.share, Kind::Fraction);
    rec.given("loss then, as the flow curve shares it", both.of_one * loss, Kind::Pressure);
}
