//! Sticking by differential pressure: the force that frees collars bedded in cake against the pull that is left, and the
//! overbalance that the crew allows.
//!
//! Permeable rock is a layer that names its fluid. Pipe whose joints hold it off the wall by more than the cake does not bed in.

use crate::fields::open_hole::Point;
use crate::geometry::{Pipe, PipePiece};
use crate::rotating;
use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::hoisting::{CakeContactWidth, StickingForce};
use rigwright_physics::{Off, Recorder};
use rigwright_units::Kind;
use rigwright_well::{Operation, PartKind};

/// The string comes free.
pub(super) fn sticking<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if scene.situation.operation != Operation::PullingOut {
        return Answer::DoesNotArise("a stuck string is pulled");
    }
    let beds: Vec<Bed> = scene.string().iter().flat_map(|piece| beds(scene, piece)).collect();
    if beds.is_empty() {
        return Answer::DoesNotArise("no collar lies against open rock that names its fluid");
    }
    let inputs = &scene.section().sticking;
    let (Some(cake), Some(cake_friction), Some(length)) = (inputs.cake, inputs.cake_friction, inputs.contact_length) else {
        return Answer::Missing(super::pits::absent([
            (inputs.cake.is_some(), "section[].sticking.cake"),
            (inputs.cake_friction.is_some(), "section[].sticking.cake_friction"),
            (inputs.contact_length.is_some(), "section[].sticking.contact_length"),
        ]));
    };
    let force = |bed: &Bed, rec: &mut Off| bed.force(cake, cake_friction, length, rec);
    let Some(worst) = beds.iter().max_by(|a, b| force(a, &mut Off).total_cmp(&force(b, &mut Off))) else {
        return Answer::DoesNotArise("no collar lies against open rock that names its fluid");
    };
    let left = match rotating::pull_left(scene, worst.depth, rec) {
        Ok(left) => left,
        Err(entry) => return Answer::Missing(vec![entry]),
    };
    rec.heading("force that frees the string");
    rec.stretch(|| worst.name.to_owned(), worst.top, worst.bottom);
    rec.given("mud over pore pressure there, pumps off", worst.overbalance, Kind::Pressure);
    rec.given("thickness of the cake that the pipe beds in", worst.cake(cake), Kind::Diameter);
    let demand = worst.force(cake, cake_friction, length, rec);
    if R::ON && demand > 0.0 {
        rec.given("overbalance that the pull left just frees", worst.overbalance * left.pull / demand, Kind::Pressure);
    }
    let limit = Limit {
        capacity: left.pull,
        reserve: (scene.fit().well.reserves.strength * left.most).max(1.0),
        name: left.name,
        source: "rig file, and API RP 7G from dimensions, grade and class",
    };
    Answer::Judged(Judged { demand, limit, place: Place::Depth(worst.depth), zero: 0.0 })
}

/// The mud presses on permeable rock no harder than the crew allows.
pub(super) fn most_overbalance<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let Some(capacity) = scene.section().sticking.most_overbalance else {
        return Answer::DoesNotArise("no largest overbalance is set");
    };
    let flow = scene.flow(&mut Off);
    if let Some(entry) = flow.missing.filter(|_| flow.pieces.is_empty()) {
        return Answer::Missing(vec![entry]);
    }
    let over = |point: &Point| flow.pressure_at(point.depth, point.vertical_depth) - point.pore;
    let points = permeable(scene);
    let Some(at) = points.iter().max_by(|a, b| over(a).total_cmp(&over(b))) else {
        return Answer::DoesNotArise("no layer of the open hole names its fluid");
    };
    if R::ON {
        super::window::show(scene, flow, at, rec);
        rec.heading("overbalance");
        rec.given("pore pressure", at.pore, Kind::Pressure);
        rec.given("pressure of the mud less pore pressure", over(at), Kind::Pressure);
    }
    let limit = Limit {
        capacity,
        reserve: (scene.fit().well.reserves.pressure * capacity).max(1.0),
        name: "largest overbalance allowed",
        source: "well file",
    };
    Answer::Judged(Judged { demand: over(at), limit, place: Place::Depth(at.depth), zero: 0.0 })
}

/// The largest pressure of the still mud over pore pressure on permeable rock, and where. [Pa]
pub(super) fn largest_overbalance(scene: &Scene) -> Option<(f64, Point)> {
    let over = |point: &Point| still_pressure(scene, point.depth, point.vertical_depth) - point.pore;
    permeable(scene).into_iter().map(|point| (over(&point), point)).max_by(|a, b| a.0.total_cmp(&b.0))
}

/// Depths of open hole in layers that name their fluid: tops, ends and what is prepared between them.
fn permeable(scene: &Scene) -> Vec<Point> {
    let prepared = scene.prepared_flow().open_hole.above(scene.situation.hole_depth).iter();
    let holds = |point: &&Point| {
        let layers = scene.fit().well.formations.iter();
        let there = layers.filter(|layer| (layer.top..=layer.base).contains(&point.vertical_depth));
        // A layer top is prepared twice; the pore pressure tells which side a point belongs to.
        there.into_iter().any(|layer| {
            layer.fluid.is_some() && (layer.pore_at(point.vertical_depth) - point.pore).abs() <= 1e-9 * point.pore.abs()
        })
    };
    prepared.filter(holds).copied().collect()
}

/// Pressure of the mud at a depth with nothing moving. [Pa]
fn still_pressure(scene: &Scene, depth: f64, vertical_depth: f64) -> f64 {
    let flow = scene.flow(&mut Off);
    let above = flow.pieces.iter().filter(|piece| piece.annulus.top < depth);
    let friction: f64 = above.map(|piece| piece.gradient * (piece.annulus.bottom.min(depth) - piece.annulus.top)).sum();
    flow.pressure_at(depth, vertical_depth) - friction
}

/// A length of pipe against permeable rock.
struct Bed<'a> {
    name: &'a str,
    top: f64,
    bottom: f64,
    /// Where the mud presses hardest on it. [m]
    depth: f64,
    overbalance: f64,
    hole_diameter: f64,
    pipe_diameter: f64,
    /// How far joints hold the body off the wall. [m]
    held_off: f64,
}

impl Bed<'_> {
    fn cake(&self, cake: f64) -> f64 {
        (cake - self.held_off).max(0.0)
    }

    /// Force to free it. [N]
    fn force<R: Recorder>(&self, cake: f64, cake_friction: f64, length: f64, rec: &mut R) -> f64 {
        let clearance = 0.5 * (self.hole_diameter - self.pipe_diameter);
        let width = CakeContactWidth { hole_diameter: self.hole_diameter, cake: self.cake(cake), clearance };
        let contact_width = rec.take(width);
        let force = StickingForce {
            cake_friction,
            pressure_difference: self.overbalance.max(0.0),
            contact_width,
            length: length.min(self.bottom - self.top),
        };
        rec.take(force)
    }
}

/// The lengths of a piece of string that lie against permeable rock of the open hole.
fn beds<'a>(scene: &Scene<'a>, piece: &PipePiece<'a>) -> Vec<Bed<'a>> {
    /// Least gap beside the pipe: narrower ones are checked when the file is read. [m]
    const GAP: f64 = 1e-4;
    let Pipe::Part(part) = piece.pipe else { return Vec::new() };
    let body = piece.pipe.outer_diameter();
    let held_off = 0.5 * (piece.pipe.joint_diameter() - body);
    if part.kind == PartKind::Bit || part.kind == PartKind::Stabiliser {
        return Vec::new();
    }
    let fit = scene.fit();
    let open = crate::geometry::open_from(fit, scene.situation.section);
    let mut found = Vec::new();
    for layer in fit.well.formations.iter().filter(|layer| layer.fluid.is_some()) {
        let (Some(from), Some(to)) = (scene.basis.measured_depth(layer.top), end_of(scene, layer.base)) else { continue };
        let (top, bottom) = (from.max(piece.top).max(open), to.min(piece.bottom));
        // Where a section above was left open, its own bit cut the hole.
        let Some(section) = fit.well.sections.iter().find(|section| section.bottom >= bottom - 1e-6) else { continue };
        if bottom - top < 1e-6 || section.hole_diameter - body < 2.0 * GAP {
            continue;
        }
        let over = |depth: f64| {
            let vertical_depth = scene.vertical_depth(depth);
            still_pressure(scene, depth, vertical_depth) - layer.pore_at(vertical_depth)
        };
        let depth = if over(top) > over(bottom) { top } else { bottom };
        found.push(Bed {
            name: piece.pipe.name(),
            top,
            bottom,
            depth,
            overbalance: over(depth),
            hole_diameter: section.hole_diameter,
            pipe_diameter: body,
            held_off,
        });
    }
    found
}

/// Measured depth of the base of a layer, or the end of the well where it lies deeper.
fn end_of(scene: &Scene, base: f64) -> Option<f64> {
    Some(scene.basis.measured_depth(base).unwrap_or_else(|| scene.fit().well.total_depth()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_pipe_held_off_by_its_joints_does_not_bed_in() {
        let bed = Bed {
            name: "pipe",
            top: 0.0,
            bottom: 100.0,
            depth: 50.0,
            overbalance: 5e6,
            hole_diameter: 0.2159,
            pipe_diameter: 0.127,
            held_off: 0.02,
        };
        assert!(bed.force(0.002, 0.2, 30.0, &mut Off).abs() < 1e-6);
        assert!(Bed { held_off: 0.0, ..bed }.force(0.002, 0.2, 30.0, &mut Off) > 1e3);
    }
}
