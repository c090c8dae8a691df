//! The range of surface mud weight that satisfies both sides of the window in every operation of a section.
//!
//! The pressure at a depth of open hole runs straight with the bit depth between the depths at which a change of string passes a change
//! of hole or the depth itself, so that only those bit depths are looked at. Which one governs is told by the mud weight that its room
//! stands for; that weight is then solved for, with friction and cuttings of mud of that weight.

use super::window::{lower_side, upper_side};
use crate::fields::flow::Flow;
use crate::fields::open_hole::Point;
use crate::{Answer, Figure, Judged, Scene, sweep};
use rigwright_physics::{Off, Recorder, Root, numerics};
use rigwright_units::Kind;
use rigwright_well::{Hung, Operation};

/// How far from the mud in use a weight is looked for. [kg/m³]
const REACH: f64 = 1500.0;

/// One side of the window in one situation.
#[derive(Clone, Copy)]
struct Side {
    operation: Operation,
    bit_depth: f64,
    /// Gel to be broken; nought without. [Pa]
    gel: f64,
    upper: bool,
    /// Where the limit bites.
    point: Point,
    /// The mud weight at which the wanted margin is just kept. [kg/m³]
    weight: f64,
}

impl Side {
    fn name(&self) -> &'static str {
        match (self.operation, self.upper) {
            _ if self.gel > 0.0 => "heaviest mud, set by breaking the gel",
            (Operation::PullingOut, _) => "lightest mud, set by pulling out",
            (Operation::Circulating, _) => "lightest mud, set by circulating",
            (Operation::Drilling, _) => "heaviest mud, set by drilling",
            (Operation::RunningIn, _) => "heaviest mud, set by running in",
            (Operation::RunningCasing, _) => "heaviest mud, set by running casing",
            (_, false) => "lightest mud, set by still mud",
            (_, true) => "heaviest mud, set by still mud",
        }
    }
}

/// What the window of a section comes to.
#[derive(Default)]
struct Window {
    lightest: Option<Side>,
    heaviest: Option<Side>,
    /// Both sides by bit depth, for the working: bit depth, lightest, heaviest.
    rows: Vec<Vec<f64>>,
    /// Whether the strength of some depth is not known.
    unknown: bool,
}

const BY_BIT: &[(&str, Kind)] =
    &[("bit depth", Kind::Depth), ("lightest, pulling", Kind::Density), ("heaviest, running in", Kind::Density)];

/// The range of mud weight.
pub(super) fn mud_window<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if scene.prepared_flow().mud.is_none() {
        return Answer::Missing(vec!["section[].mud.readings"]);
    }
    let window = look(scene, R::ON);
    let (Some(low), Some(high)) = (window.lightest, window.heaviest) else {
        return if window.unknown { Answer::Missing(vec!["formation[].fracture"]) } else { Answer::DoesNotArise("no open hole") };
    };
    if window.unknown {
        return Answer::Missing(vec!["formation[].fracture"]);
    }
    rec.note(|| {
        "Each weight is the one at which the wanted margin is just kept, friction and cuttings reckoned with that mud.".to_owned()
    });
    let lightest = solve(scene, &low, rec);
    let heaviest = solve(scene, &high, rec);
    rec.table("by bit depth, first reckoning", BY_BIT, || window.rows);
    let figure = |name, value, kind| Figure { name, value, kind };
    let width = heaviest - lightest;
    let mut figures = vec![
        figure(low.name(), lightest, Kind::Density),
        figure("depth that sets the lightest", low.point.depth, Kind::Depth),
        figure(high.name(), heaviest, Kind::Density),
        figure("depth that sets the heaviest", high.point.depth, Kind::Depth),
        figure("mud in use", scene.section().mud.weight, Kind::Density),
    ];
    figures.push(if width >= 0.0 {
        figure("room between lightest and heaviest", width, Kind::Density)
    } else {
        figure("no mud serves all: the two conflict by", -width, Kind::Density)
    });
    if let Some((short, kicks, breaks)) = crossflow(scene, rec).filter(|_| scene.section().managed_pressure.is_none()) {
        figures.push(figure("one layer flows into another, whatever the mud: short by", short, Kind::Density));
        figures.push(figure("depth that flows", kicks, Kind::Depth));
        figures.push(figure("depth that takes", breaks, Kind::Depth));
    }
    Answer::Told(figures)
}

/// Both sides over all situations of the section.
fn look(scene: &Scene, table: bool) -> Window {
    let (fit, section) = (scene.fit(), scene.situation.section);
    let this = &fit.well.sections[section];
    let mut window = Window::default();
    let open = || scene.prepared_flow().open_hole.points().iter().map(|point| point.depth);
    let gel = this.mud.gels.map_or(0.0, |gels| gels[1]);
    window.take(scene, Operation::Connection, this.bottom, gel);
    for depth in sweep::turning_depths(fit, section, Hung::DrillString, open()) {
        let (low, high) =
            (window.take(scene, Operation::PullingOut, depth, 0.0).0, window.take(scene, Operation::RunningIn, depth, 0.0).1);
        if table && let (Some(low), Some(high)) = (low, high) {
            window.rows.push(vec![depth, low, high]);
        }
        if depth > this.top {
            // Without back pressure still mud is the lighter case.
            if this.managed_pressure.is_some() {
                window.take(scene, Operation::Circulating, depth, 0.0);
            }
            window.take(scene, Operation::Drilling, depth, 0.0);
        }
    }
    for depth in sweep::turning_depths(fit, section, Hung::Casing, open()) {
        window.take(scene, Operation::RunningCasing, depth, 0.0);
    }
    window
}

impl Window {
    /// Looks at the sides that an operation has, keeps the narrowest, and gives the weights that it allows. [kg/m³]
    fn take(&mut self, scene: &Scene, operation: Operation, bit_depth: f64, gel: f64) -> (Option<f64>, Option<f64>) {
        let scene = at(scene, operation, bit_depth);
        let flow = scene.flow(&mut Off);
        let (mut low, mut high) = (None, None);
        if matches!(operation, Operation::Connection | Operation::Circulating | Operation::PullingOut)
            && let Some((judged, point)) = lower_side(&scene, flow)
        {
            let side = Side { operation, bit_depth, gel: 0.0, upper: false, point, weight: first_weight(&scene, &judged, false) };
            low = Some(side.weight);
            if self.lightest.is_none_or(|kept| side.weight > kept.weight) {
                self.lightest = Some(side);
            }
        }
        if !matches!(operation, Operation::Circulating | Operation::PullingOut) {
            for gel in [0.0, gel] {
                let (worst, unknown) = upper_side(&scene, flow, gel);
                self.unknown |= unknown;
                let Some((judged, point)) = worst else { continue };
                let side = Side { operation, bit_depth, gel, upper: true, point, weight: first_weight(&scene, &judged, true) };
                high = Some(side.weight);
                if self.heaviest.is_none_or(|kept| side.weight < kept.weight) {
                    self.heaviest = Some(side);
                }
            }
        }
        (low, high)
    }
}

/// The scene of another situation of the same section.
fn at<'a>(scene: &Scene<'a>, operation: Operation, bit_depth: f64) -> Scene<'a> {
    let section = scene.situation.section;
    let drilled = matches!(operation, Operation::Drilling | Operation::Circulating);
    let hole_depth = if drilled { bit_depth } else { scene.section().bottom };
    Scene::new(scene.basis, sweep::situation(scene.fit(), section, operation, hole_depth, bit_depth))
}

/// What the mud may weigh more before the wanted margin goes, or less on the lower side. [kg/m³]
fn room(judged: &Judged) -> f64 {
    judged.limit.capacity - judged.demand - judged.limit.reserve
}

/// The mud weight that a room stands for when friction and cuttings stay as they are. [kg/m³]
fn first_weight(scene: &Scene, judged: &Judged, upper: bool) -> f64 {
    // Rooms are counted over the height that the mud fills.
    let by = room(judged);
    scene.section().mud.weight + if upper { by } else { -by }
}

/// The mud weight at which a side just keeps its margin, with friction and cuttings of that mud. [kg/m³]
fn solve<R: Recorder>(scene: &Scene, side: &Side, rec: &mut R) -> f64 {
    let there = at(scene, side.operation, side.bit_depth);
    let left = |weight: f64| {
        let flow = Flow::with_weight(&there, weight);
        let worst = if side.upper { upper_side(&there, &flow, side.gel).0 } else { lower_side(&there, &flow) };
        worst.map_or(f64::NAN, |(judged, _)| room(&judged))
    };
    let low = (side.weight - REACH).max(1.0);
    let weight = numerics::root(left, low, side.weight + REACH).unwrap_or(side.weight);
    if R::ON {
        rec.heading(side.name());
        rec.note(|| format!("while {}", side.operation.name()));
        rec.given("bit depth", side.bit_depth, Kind::Depth);
        rec.given("depth where it bites", side.point.depth, Kind::Depth);
        rec.root(Root {
            equation: "room in the window at that depth, less the wanted margin = 0",
            sign: "ρ",
            meaning: "mud weight",
            kind: Kind::Density,
            value: weight,
            residual: left(weight),
            residual_kind: Kind::Density,
        });
        let flow = there.flow(&mut Off);
        rec.note(|| "With the mud in use:".to_owned());
        super::window::show(&there, flow, &side.point, rec);
    }
    weight
}

/// Whether still mud that holds one layer back breaks another, without any margin: how much is lacking, the depth that flows and the
/// depth that takes.
fn crossflow<R: Recorder>(scene: &Scene, rec: &mut R) -> Option<(f64, f64, f64)> {
    let points = scene.prepared_flow().open_hole.points();
    let weight = |pressure: f64, point: &Point| super::window::weight(scene, pressure, point);
    let flows = points.iter().map(|point| (weight(point.pore, point), point)).max_by(|a, b| a.0.total_cmp(&b.0))?;
    let takes =
        points.iter().filter_map(|point| Some((weight(point.fracture?, point), point))).min_by(|a, b| a.0.total_cmp(&b.0))?;
    let short = flows.0 - takes.0;
    if short <= 0.0 {
        return None;
    }
    if R::ON {
        rec.heading("flow from layer to layer");
        rec.take(super::window::equivalent(scene, flows.1.pore, flows.1));
        rec.take(super::window::equivalent(scene, takes.1.fracture.unwrap_or_default(), takes.1));
        rec.note(|| {
            let name = |point: &Point| &scene.fit().well.formation_at(point.vertical_depth).name;
            format!("{} flows into {} under any still mud", name(flows.1), name(takes.1))
        });
    }
    Some((short, flows.1.depth, takes.1.depth))
}
