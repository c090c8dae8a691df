//! The plan of a connection: back pressure against flow, so that the anchor keeps its pressure.

use super::NO_BACK_PRESSURE;
use crate::answer::Figure;
use crate::circulating::{equivalent_weight, place_of};
use crate::fields::flow::Flow;
use crate::fields::open_hole::{Point, point};
use crate::{Answer, Judged, Limit, Place, Scene, geometry, sweep};
use rigwright_physics::circulating::column::{EquivalentMudWeight, Hydrostatic};
use rigwright_physics::control::managed::{BackPressureForAnchor, ConnectionChange, PressureWithBackPressure};
use rigwright_physics::{Formula, Kind, Off, Recorder};
use rigwright_well::{ManagedPressure, Operation};

/// Even steps in which the pumps are brought down.
const STEPS: u32 = 8;

/// Back pressure at one rate of the pumps.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Step {
    /// Flow. [m³/s]
    pub(crate) flow_rate: f64,
    /// Friction from the anchor to surface. [Pa]
    pub(crate) loss: f64,
    /// Back pressure that holds the anchor. [Pa]
    pub(crate) back_pressure: f64,
}

/// One depth of open hole through the connection. [Pa]
#[derive(Clone, Copy, Debug)]
pub(crate) struct Depth {
    /// The rock.
    pub(crate) point: Point,
    /// Pressure while pumping.
    pub(crate) pumping: f64,
    /// Pressure with the pumps off.
    pub(crate) still: f64,
    /// Lowest and highest on the way.
    pub(crate) range: [f64; 2],
}

/// How a connection is made at the end of a section.
#[derive(Clone, Debug)]
pub(crate) struct Plan {
    /// What the file says.
    pub(crate) managed: ManagedPressure,
    /// Measured and vertical depth of the anchor. [m]
    pub(crate) anchor: [f64; 2],
    /// Pressure held there. [Pa]
    pub(crate) target: f64,
    /// Column above the anchor. [Pa]
    pub(crate) column: f64,
    /// From full flow to none.
    pub(crate) steps: Vec<Step>,
    /// The open hole, from the top down.
    pub(crate) depths: Vec<Depth>,
}

/// The annulus at the end of the section at a flow, cuttings left out, open at the top.
pub(super) fn at_flow(scene: &Scene, flow_rate: f64) -> Flow {
    let bottom = scene.section().bottom;
    let mut situation = sweep::situation(scene.fit(), scene.situation.section, Operation::Circulating, bottom, bottom);
    situation.flow_rate = flow_rate;
    situation.back_pressure = 0.0;
    let there = Scene::new(scene.basis, situation);
    Flow::solve(&there, &mut Off)
}

/// Every depth of open hole at which rock or annulus changes.
pub(super) fn points(scene: &Scene, flow: &Flow) -> Vec<Point> {
    let mut points = scene.prepared_flow().open_hole.points().to_vec();
    let ends = flow.pieces.iter().filter(|piece| !piece.annulus.cased).map(|piece| piece.annulus.bottom);
    points.extend(ends.filter_map(|depth| point(scene.fit(), depth)));
    points.sort_by(|a, b| a.depth.total_cmp(&b.depth));
    points.dedup_by(|next, kept| {
        let near = |a: f64, b: f64| (a - b).abs() < 1e-6 * b.abs().max(1.0);
        let bears = |at: &Point| at.fracture.unwrap_or(f64::INFINITY);
        near(next.depth, kept.depth)
            && near(next.pore, kept.pore)
            && (bears(next) >= bears(kept) || near(bears(next), bears(kept)))
    });
    points
}

impl Plan {
    /// The plan of a section that is drilled with back pressure; `Err` with the entry without which no friction is known.
    pub(crate) fn new<R: Recorder>(scene: &Scene, rec: &mut R) -> Option<Result<Plan, &'static str>> {
        let managed = scene.section().managed_pressure?;
        let full = scene.section().drilling.flow_rate;
        let flows: Vec<(f64, Flow)> = (0..=STEPS)
            .map(|step| full * f64::from(STEPS - step) / f64::from(STEPS))
            .map(|flow_rate| (flow_rate, at_flow(scene, flow_rate)))
            .collect();
        let (first, still) = (&flows.first()?.1, &flows.last()?.1);
        if let Some(entry) = first.missing.filter(|_| first.pieces.is_empty()) {
            return Some(Err(entry));
        }
        let depth = managed.anchor.unwrap_or(scene.section().bottom);
        let anchor = [depth, scene.vertical_depth(depth)];
        let column = still.pressure_at(depth, anchor[1]);
        let target = first.pressure_at(depth, anchor[1]) + managed.flowing;
        let steps: Vec<Step> = flows
            .iter()
            .map(|(flow_rate, flow)| {
                let loss = flow.pressure_at(depth, anchor[1]) - column;
                Step { flow_rate: *flow_rate, loss, back_pressure: target - column - loss }
            })
            .collect();
        let at = |point: &Point, index: usize| {
            flows[index].1.pressure_at(point.depth, point.vertical_depth) + steps[index].back_pressure
        };
        let depths = points(scene, first)
            .into_iter()
            .map(|point| {
                let all = (0..steps.len()).map(|index| at(&point, index));
                let range = all.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], p| [low.min(p), high.max(p)]);
                Depth { point, pumping: at(&point, 0), still: at(&point, steps.len() - 1), range }
            })
            .collect();
        let plan = Plan { managed, anchor, target, column, steps, depths };
        plan.show(scene, rec);
        Some(Ok(plan))
    }

    /// Back pressure with the pumps off. [Pa]
    pub(crate) fn still(&self) -> f64 {
        self.steps.last().map_or(0.0, |step| step.back_pressure)
    }

    /// The highest back pressure that the file or the anchor asks for with the pumps off. [Pa]
    pub(super) fn highest_still(&self) -> f64 {
        self.still().max(self.managed.still)
    }

    fn show<R: Recorder>(&self, scene: &Scene, rec: &mut R) {
        if !R::ON {
            return;
        }
        let [depth, vertical_depth] = self.anchor;
        let mut situation = scene.situation;
        situation.operation = Operation::Circulating;
        Flow::show_annulus(&Scene::new(scene.basis, situation), rec);
        rec.heading("the anchor, while pumping");
        rec.given("measured depth of the anchor", depth, Kind::Depth);
        let (density, gravity) = (scene.section().mud.weight, scene.gravity());
        let hydrostatic = rec.take(Hydrostatic { density, vertical_depth, gravity });
        let annular_loss = self.steps.first().map_or(0.0, |step| step.loss);
        rec.given("friction in the annulus from the anchor to surface", annular_loss, Kind::Pressure);
        rec.take(PressureWithBackPressure { back_pressure: self.managed.flowing, hydrostatic, annular_loss });
        rec.heading("the anchor, pumps off");
        rec.take(BackPressureForAnchor { target_pressure: self.target, hydrostatic, annular_loss: 0.0 });
        rec.note(|| {
            "Back pressure follows the friction, which is not straight in the flow: it is to be led by this table.".into()
        });
        rec.table("back pressure against flow", STEP_COLUMNS, || {
            let row =
                |step: &Step| vec![step.flow_rate, step.loss, step.back_pressure, step.loss + step.back_pressure + self.column];
            self.steps.iter().map(row).collect()
        });
        rec.table("every depth of open hole, as mud weights", DEPTH_COLUMNS, || {
            let row = |at: &Depth| {
                let weight = |pressure| equivalent_weight(scene, pressure, &at.point);
                let change = at.still - at.pumping;
                let floor = weight(at.point.floor());
                vec![at.point.depth, at.point.vertical_depth, floor, weight(at.pumping), weight(at.still), change]
            };
            self.depths.iter().map(row).collect()
        });
    }
}

const STEP_COLUMNS: &[(&str, Kind)] = &[
    ("flow", Kind::FlowRate),
    ("friction above the anchor", Kind::Pressure),
    ("back pressure", Kind::Pressure),
    ("pressure at the anchor", Kind::Pressure),
];

const DEPTH_COLUMNS: &[(&str, Kind)] = &[
    ("depth", Kind::Depth),
    ("vertical depth", Kind::Depth),
    ("pore or collapse", Kind::Density),
    ("pumping", Kind::Density),
    ("pumps off", Kind::Density),
    ("change", Kind::Pressure),
];

/// The plan, or the answer in its place.
pub(super) fn plan<R: Recorder>(scene: &Scene, rec: &mut R) -> Result<Plan, Answer> {
    match Plan::new(scene, rec) {
        None => Err(NO_BACK_PRESSURE),
        Some(Err(entry)) => Err(Answer::Missing(vec![entry])),
        Some(Ok(plan)) => Ok(plan),
    }
}

/// What the plan comes to.
pub(super) fn told<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let plan = match plan(scene, rec) {
        Ok(plan) => plan,
        Err(answer) => return answer,
    };
    let figure = |name, value, kind| Figure { name, value, kind };
    let mut figures = vec![
        figure("back pressure that holds the anchor, pumps off", plan.still(), Kind::Pressure),
        figure("depth of the anchor", plan.anchor[0], Kind::Depth),
        figure("back pressure, pumping", plan.managed.flowing, Kind::Pressure),
        figure("back pressure of the file, pumps off", plan.managed.still, Kind::Pressure),
    ];
    let shoe = geometry::open_from(scene.fit(), scene.situation.section);
    let anchor_loss = plan.steps.first().map_or(0.0, |step| step.loss);
    for (heading, name, depth) in [
        ("the shoe, when the pumps stop", "change at the shoe on a connection", shoe),
        ("the bottom, when the pumps stop", "change at the bottom on a connection", scene.section().bottom),
    ] {
        // The depth's own friction is what its pressure loses beside the back pressure that it gains.
        let Some(at) = plan.depths.iter().find(|at| (at.point.depth - depth).abs() < 1e-6) else { continue };
        rec.heading(heading);
        let annular_loss = (at.pumping - at.still + anchor_loss).max(0.0);
        rec.given("friction in the annulus from there to surface", annular_loss, Kind::Pressure);
        figures.push(figure(name, rec.take(ConnectionChange { anchor_loss, annular_loss }), Kind::Pressure));
    }
    Answer::Told(figures)
}

/// The rock bears every step of the plan.
pub(super) fn fracture<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let plan = match plan(scene, rec) {
        Ok(plan) => plan,
        Err(answer) => return answer,
    };
    let reserve = scene.fit().well.margins.fracture;
    let unknown = plan.depths.iter().any(|at| at.point.fracture.is_none());
    let judged = plan.depths.iter().filter_map(|at| {
        let (capacity, demand) = (at.point.fracture?, at.range[1]);
        let weight = |pressure| equivalent_weight(scene, pressure, &at.point);
        let (name, source) = place_of(&at.point);
        let limit = Limit { capacity: weight(capacity), reserve, name, source };
        let place = Place::Depth(at.point.depth);
        Some((Judged { demand: weight(demand), limit, place, zero: weight(at.point.pore) }, *at))
    });
    match worst_of(judged) {
        Some((judged, at)) if !unknown || judged.room() < 0.0 => {
            rec.heading("the depth that governs");
            show_at(scene, &at, at.range[1], rec);
            rec.take(as_weight(scene, at.point.fracture.unwrap_or_default(), &at.point));
            Answer::Judged(judged)
        }
        None if !unknown => Answer::DoesNotArise("no open hole"),
        _ => Answer::Missing(vec!["formation[].fracture"]),
    }
}

/// Every step of the plan stays over balance.
pub(super) fn pore<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let plan = match plan(scene, rec) {
        Ok(plan) => plan,
        Err(answer) => return answer,
    };
    let reserve = scene.fit().well.margins.trip;
    let judged = plan.depths.iter().map(|at| {
        let weight = |pressure| equivalent_weight(scene, pressure, &at.point);
        let limit = Limit {
            capacity: weight(at.range[0]),
            reserve,
            name: "mud with back pressure",
            source: "mud weight, losses and the plan of the connection",
        };
        (Judged { demand: weight(at.point.floor()), limit, place: Place::Depth(at.point.depth), zero: 0.0 }, *at)
    });
    let Some((judged, at)) = worst_of(judged) else { return Answer::DoesNotArise("no open hole") };
    rec.heading("the depth that governs");
    show_at(scene, &at, at.range[0], rec);
    rec.take(as_weight(scene, at.point.floor(), &at.point));
    Answer::Judged(judged)
}

fn worst_of(judged: impl Iterator<Item = (Judged, Depth)>) -> Option<(Judged, Depth)> {
    judged.reduce(|worst, next| if next.0.room() < worst.0.room() { next } else { worst })
}

fn as_weight(scene: &Scene, pressure: f64, at: &Point) -> EquivalentMudWeight {
    EquivalentMudWeight { pressure, vertical_depth: at.vertical_depth, gravity: scene.gravity() }
}

fn show_at<R: Recorder>(scene: &Scene, at: &Depth, pressure: f64, rec: &mut R) {
    if R::ON {
        rec.given("measured depth", at.point.depth, Kind::Depth);
        rec.given("pressure while pumping", at.pumping, Kind::Pressure);
        rec.given("pressure with the pumps off", at.still, Kind::Pressure);
        rec.given("the one that counts, over all steps", pressure, Kind::Pressure);
        rec.take(as_weight(scene, pressure, &at.point));
    }
}

/// Hydrostatic pressure of the mud alone at a depth. [Pa]
pub(super) fn mud_column(scene: &Scene, at: &Point) -> Hydrostatic {
    Hydrostatic { density: scene.section().mud.weight, vertical_depth: at.vertical_depth, gravity: scene.gravity() }
}

/// Pressure of the mud alone. [Pa]
pub(super) fn mud_pressure(scene: &Scene, at: &Point) -> f64 {
    mud_column(scene, at).value()
}
