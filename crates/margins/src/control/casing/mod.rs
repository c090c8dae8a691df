//! The design of the casing that ends a section: pressure inside, collapse, tension and all of them together, each at
//! its worst depth in its worst load case. Production is not looked at.

mod loads;
#[cfg(test)]
mod tests;

use crate::{Answer, Judged, Limit, Place, Scene};
use loads::{Case, Design, Load, Node};
use rigwright_physics::rotating::{CollapseOnEllipse, PipeLoad, TriaxialDesignFactor};
use rigwright_physics::tubular::{
    AllowedBurst, AllowedCollapse, AllowedStress, AllowedTension, BurstStrength, CollapseDifference, PipeBody, PolarMoment,
    TensionStrength,
};
use rigwright_physics::{Formula, Kind, Off, Recorder};

use super::ratings::WALL_SHARE;

const YOUNGS_MODULUS: f64 = 206.8e9;
const BODY: &str = "API Bulletin 5C3 from dimensions and grade; the factor is the crew's";
const MAKER: &str = "maker's sheet, as given; the factor is the crew's";
const OPEN: Answer = Answer::DoesNotArise("the section stays open: no casing ends it");

/// A load, a depth of it, and what came of them.
struct Found<'a> {
    load: &'a Load,
    node: Node,
    judged: Judged,
}

/// What a question asks of the string.
struct Asks<'a> {
    cases: &'a [Case],
    /// Why it does not arise where none of them does.
    nothing: &'static str,
    /// Entries that it needs and nobody gave.
    missing: Vec<&'static str>,
    columns: &'static [(&'static str, Kind)],
}

/// Judges every depth of the loads of some cases, and shows them all with the governing one in full.
fn judge<R: Recorder>(
    scene: &Scene,
    rec: &mut R,
    asks: Asks,
    mut at: impl FnMut(&Design, Case, &Node, &mut dyn FnMut(Judged)),
    show: impl FnOnce(&Design, &Found, &mut R),
) -> Answer {
    let Asks { cases, nothing, mut missing, columns } = asks;
    let Some(casing) = &*scene.section().casing else { return OPEN };
    rec.heading("the string");
    rec.stretch(|| casing.name.clone(), casing.top, casing.shoe);
    let design = Design::new(scene, casing, rec);
    let mut loads = Vec::new();
    for case in cases {
        match design.loads(*case) {
            Ok(more) => loads.extend(more),
            Err(entries) => missing.extend(entries),
        }
    }
    let mut worst: Option<Found> = None;
    for load in &loads {
        let mut rows = Vec::new();
        for node in &load.nodes {
            let mut here: Option<Judged> = None;
            at(&design, load.case, node, &mut |judged| {
                if here.is_none_or(|kept| judged.room() < kept.room()) {
                    here = Some(judged);
                }
            });
            let Some(judged) = here else { continue };
            if R::ON {
                let Node { depth, inside, outside, true_tension, .. } = *node;
                rows.push(vec![depth, inside, outside, true_tension, judged.demand, judged.limit.capacity]);
            }
            if worst.as_ref().is_none_or(|kept| judged.room() < kept.judged.room()) {
                worst = Some(Found { load, node: *node, judged });
            }
        }
        rec.heading(load.case.heading());
        rec.table("along the string", columns, || rows);
    }
    if let Some(found) = &worst {
        show(&design, found, rec);
    }
    missing.sort_unstable();
    missing.dedup();
    match worst {
        // What nobody knows may be worse, unless a known thing is passed already.
        Some(found) if missing.is_empty() || found.judged.room() < 0.0 => Answer::Judged(found.judged),
        _ if !missing.is_empty() => Answer::Missing(missing),
        _ => Answer::DoesNotArise(nothing),
    }
}

/// Where a node is.
fn place(node: &Node) -> Place {
    if node.depth > 0.0 { Place::Depth(node.depth) } else { Place::Surface }
}

/// The governing case and depth, with what stands inside and outside and what pulls.
fn show_node<R: Recorder>(design: &Design, found: &Found, rec: &mut R) {
    rec.heading("the governing load case and depth");
    rec.note(|| found.load.case.heading().to_owned());
    design.node(found.load, found.node.depth, rec);
}

const INSIDE: &[(&str, Kind)] = &[
    ("measured depth", Kind::Depth),
    ("inside", Kind::Pressure),
    ("outside", Kind::Pressure),
    ("true tension", Kind::Force),
    ("inside over outside", Kind::Pressure),
    ("may be", Kind::Pressure),
];

/// Burst of body and connection with the share that may be used. [Pa]
fn burst<R: Recorder>(design: &Design, node: &Node, rec: &mut R) -> Option<[Option<f64>; 2]> {
    let casing = design.casing;
    let burst_fraction = casing.burst_fraction?;
    let (outer_diameter, yield_strength) = (casing.outer_diameter, node.yield_strength);
    let burst = rec.take(BurstStrength { yield_strength, wall: design.wall, outer_diameter, wall_share: WALL_SHARE });
    let body = rec.take(AllowedBurst { burst, burst_fraction });
    let connection = casing.connection_burst.map(|rating| {
        rec.given("pressure that the connection bears", rating, Kind::Pressure);
        rec.take(AllowedBurst { burst: rating * heat(design, node), burst_fraction })
    });
    Some([Some(body), connection])
}

/// What heat leaves of a cold strength.
fn heat(design: &Design, node: &Node) -> f64 {
    node.yield_strength / design.casing.yield_strength
}

pub(super) fn inside<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let Some(casing) = &*scene.section().casing else { return OPEN };
    let mut missing = Vec::new();
    missing.extend(casing.burst_fraction.is_none().then_some("section[].casing.burst_fraction"));
    missing.extend(casing.connection_burst.is_none().then_some("section[].casing.connection_burst"));
    let share = scene.fit().well.reserves.pressure;
    judge(
        scene,
        rec,
        Asks { cases: &[Case::Bump, Case::Test, Case::Gas], nothing: "no pressure is put inside", missing, columns: INSIDE },
        |design, case, node, found| {
            let Some(limits) = burst(design, node, &mut Off) else { return };
            for (capacity, connection) in limits.into_iter().zip([false, true]) {
                let Some(capacity) = capacity else { continue };
                let name = match (case, connection) {
                    (Case::Bump, false) => "burst of the body at plug bump",
                    (Case::Bump, true) => "burst of the connection at plug bump",
                    (Case::Test, false) => "burst of the body at the pressure test",
                    (Case::Test, true) => "burst of the connection at the pressure test",
                    (_, false) => "burst of the body with gas to surface",
                    (_, true) => "burst of the connection with gas to surface",
                };
                let source = if connection { MAKER } else { BODY };
                let limit = Limit { capacity, reserve: (share * capacity).max(1.0), name, source };
                found(Judged { demand: node.inside - node.outside, limit, place: place(node), zero: 0.0 });
            }
        },
        |design, found, rec| {
            show_node(design, found, rec);
            rec.heading("what may be used of burst");
            burst(design, &found.node, rec);
        },
    )
}

const OUTSIDE: &[(&str, Kind)] = &[
    ("measured depth", Kind::Depth),
    ("inside", Kind::Pressure),
    ("outside", Kind::Pressure),
    ("true tension", Kind::Force),
    ("counts", Kind::Pressure),
    ("may be", Kind::Pressure),
];

/// Pressure that counts against collapse, and what may be used of the strength. [Pa]
fn collapse_at<R: Recorder>(design: &Design, node: &Node, design_factor: f64, rec: &mut R) -> (f64, f64) {
    let (outer_diameter, wall) = (design.casing.outer_diameter, design.wall);
    let (outside_pressure, inside_pressure) = (node.outside, node.inside);
    let demand = rec.take(CollapseDifference { outside_pressure, inside_pressure, wall, outer_diameter });
    let axial_stress = (node.true_tension / design.steel_area).max(0.0);
    rec.given("stress of the true tension over the area", axial_stress, Kind::Stress);
    let body = PipeBody { yield_strength: node.yield_strength, outer_diameter, wall };
    let collapse_strength = body.collapse_strength_under_tension(axial_stress, rec);
    (demand, rec.take(AllowedCollapse { collapse_strength, design_factor }))
}

pub(super) fn collapse<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let well = &scene.fit().well;
    let (share, factor) = (well.reserves.pressure, well.casing_factors.collapse);
    let floated = scene.section().casing.as_ref().is_some_and(|casing| casing.floated > 0.0);
    // Full of the mud that is around it, it is not asked while it is run.
    let cases: &[Case] = if floated { &[Case::Running, Case::Cementing, Case::Losses] } else { &[Case::Cementing, Case::Losses] };
    judge(
        scene,
        rec,
        Asks { cases, nothing: "nothing presses on it from outside", missing: Vec::new(), columns: OUTSIDE },
        |design, case, node, found| {
            let (demand, capacity) = collapse_at(design, node, factor, &mut Off);
            let name = match case {
                Case::Running => "collapse of the casing run empty on its floats",
                Case::Cementing => "collapse of the casing while it is cemented",
                _ => "collapse of the casing when returns are lost",
            };
            let limit = Limit { capacity, reserve: (share * capacity).max(1.0), name, source: BODY };
            found(Judged { demand, limit, place: place(node), zero: 0.0 });
        },
        |design, found, rec| {
            show_node(design, found, rec);
            rec.heading("collapse under that tension: the regime chosen again for the equivalent grade");
            collapse_at(design, &found.node, factor, rec);
            if R::ON && found.node.true_tension > 0.0 {
                rec.heading("beside it, as textbooks have it: the strength without tension shrunk like the yield strength");
                let (outer_diameter, wall, yield_strength) =
                    (design.casing.outer_diameter, design.wall, found.node.yield_strength);
                let collapse_strength = PipeBody { yield_strength, outer_diameter, wall }.collapse_strength(rec);
                let axial_stress = found.node.true_tension / design.steel_area;
                rec.take(CollapseOnEllipse { collapse_strength, axial_stress, yield_strength });
            }
        },
    )
}

const PULLED: &[(&str, Kind)] = &[
    ("measured depth", Kind::Depth),
    ("inside", Kind::Pressure),
    ("outside", Kind::Pressure),
    ("true tension", Kind::Force),
    ("pulls", Kind::Force),
    ("may be", Kind::Force),
];

/// Tension that may be used of body and connection. [N]
fn pull<R: Recorder>(design: &Design, node: &Node, design_factor: f64, rec: &mut R) -> [Option<f64>; 2] {
    let (yield_strength, steel_area) = (node.yield_strength, design.steel_area);
    let tension_strength = rec.take(TensionStrength { yield_strength, steel_area });
    let body = rec.take(AllowedTension { tension_strength, design_factor });
    let connection = design.casing.connection_tension.map(|rating| {
        rec.given("tension that the connection bears", rating, Kind::Force);
        rec.take(AllowedTension { tension_strength: rating * heat(design, node), design_factor })
    });
    [Some(body), connection]
}

pub(super) fn tension<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let Some(casing) = &*scene.section().casing else { return OPEN };
    let missing = casing.connection_tension.is_none().then_some("section[].casing.connection_tension");
    let well = &scene.fit().well;
    let (share, factor) = (well.reserves.strength, well.casing_factors.tension);
    judge(
        scene,
        rec,
        Asks {
            cases: &[Case::Running, Case::Bump, Case::Test, Case::Gas],
            nothing: "nothing pulls on it",
            missing: missing.into_iter().collect(),
            columns: PULLED,
        },
        |design, case, node, found| {
            for (capacity, connection) in pull(design, node, factor, &mut Off).into_iter().zip([false, true]) {
                let Some(capacity) = capacity else { continue };
                let name = match (case, connection) {
                    (Case::Running, false) => "tension of the body while it is run",
                    (Case::Running, true) => "tension of the connection while it is run",
                    (Case::Bump, false) => "tension of the body at plug bump",
                    (Case::Bump, true) => "tension of the connection at plug bump",
                    (Case::Test, false) => "tension of the body at the pressure test",
                    (Case::Test, true) => "tension of the connection at the pressure test",
                    (_, false) => "tension of the body with gas to surface",
                    (_, true) => "tension of the connection with gas to surface",
                };
                let source = if connection { MAKER } else { BODY };
                let limit = Limit { capacity, reserve: (share * capacity).max(1.0), name, source };
                found(Judged { demand: node.true_tension, limit, place: place(node), zero: 0.0 });
            }
        },
        |design, found, rec| {
            show_node(design, found, rec);
            rec.heading("what may be used of the tension strength");
            pull(design, &found.node, factor, rec);
        },
    )
}

const TOGETHER: &[(&str, Kind)] = &[
    ("measured depth", Kind::Depth),
    ("inside", Kind::Pressure),
    ("outside", Kind::Pressure),
    ("true tension", Kind::Force),
    ("equivalent stress", Kind::Stress),
    ("may be", Kind::Stress),
];

/// Equivalent stress. Under pressure from inside the wall counts as thin as new pipe may be, for tension as it is named. [Pa]
fn stress<R: Recorder>(design: &Design, node: &Node, rec: &mut R) -> f64 {
    let casing = design.casing;
    let (outer_diameter, inner_diameter) = (casing.outer_diameter, casing.inner_diameter);
    let polar_moment = rec.take(PolarMoment { outer_diameter, inner_diameter });
    let wall = if node.inside > node.outside { WALL_SHARE * design.wall } else { design.wall };
    rec.given("wall that counts for pressure: what is sure of it under pressure from inside", wall, Kind::Diameter);
    rec.given("curvature of the hole", node.curvature, Kind::Curvature);
    let load = PipeLoad {
        inner_diameter: outer_diameter - 2.0 * wall,
        wall,
        steel_area: design.steel_area,
        polar_moment,
        youngs_modulus: YOUNGS_MODULUS,
        inside_pressure: node.inside,
        outside_pressure: node.outside,
        true_tension: node.true_tension,
        curvature: node.curvature,
        torque: 0.0,
    };
    load.worst(rec).stress
}

pub(super) fn triaxial<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let well = &scene.fit().well;
    let (share, design_factor) = (well.reserves.strength, well.casing_factors.triaxial);
    judge(
        scene,
        rec,
        Asks {
            cases: &[Case::Running, Case::Cementing, Case::Bump, Case::Test, Case::Gas, Case::Losses],
            nothing: "nothing loads it",
            missing: Vec::new(),
            columns: TOGETHER,
        },
        |design, case, node, found| {
            let capacity = AllowedStress { yield_strength: node.yield_strength, design_factor }.value();
            let name = match case {
                Case::Running => "yield strength while it is run",
                Case::Cementing => "yield strength while it is cemented",
                Case::Bump => "yield strength at plug bump",
                Case::Test => "yield strength at the pressure test",
                Case::Gas => "yield strength with gas to surface",
                Case::Losses => "yield strength when returns are lost",
            };
            let limit = Limit { capacity, reserve: (share * capacity).max(1.0), name, source: VON_MISES };
            found(Judged { demand: stress(design, node, &mut Off), limit, place: place(node), zero: 0.0 });
        },
        |design, found, rec| {
            show_node(design, found, rec);
            rec.heading("all together");
            let equivalent_stress = stress(design, &found.node, rec).max(1.0);
            let yield_strength = found.node.yield_strength;
            rec.take(TriaxialDesignFactor { yield_strength, equivalent_stress });
            rec.take(AllowedStress { yield_strength, design_factor });
        },
    )
}

const VON_MISES: &str = "equivalent stress of von Mises; grade over the crew's design factor";
