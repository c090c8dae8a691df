//! The plan of managed pressure as a paper: the connection step by step, what it does elsewhere, and what is done about
//! which influx at which pressure.

use super::{Cell, Maker, Method, PEOPLE, Refused};
use crate::circulating::equivalent_weight;
use crate::control::managed::plan::Plan;
use rigwright_physics::Kind;

pub(super) static METHOD: Method = Method {
    slug: "managed-pressure",
    title: "plan of managed pressure",
    asks: "a connection with back pressure, step by step; what it does at every depth; and what is done about which influx at which pressure",
    inputs: &[],
    cautions: &[
        "the plan holds inside the limits that were agreed beforehand: outside them the preventers close and the well is killed in the usual way",
        "mud and its friction alone: cuttings, heat and gel are left out; the table is checked against a pressure that is measured downhole before it is used",
        "absence of an alarm is no proof that nothing flows in",
        PEOPLE,
    ],
    make,
};

const RAMP: &[(&str, Option<Kind>)] = &[
    ("step", Some(Kind::Count)),
    ("flow", Some(Kind::FlowRate)),
    ("friction above the anchor", Some(Kind::Pressure)),
    ("back pressure", Some(Kind::Pressure)),
];

const DEPTHS: &[(&str, Option<Kind>)] = &[
    ("depth", Some(Kind::Depth)),
    ("pore or collapse", Some(Kind::Density)),
    ("pumping", Some(Kind::Density)),
    ("pumps off", Some(Kind::Density)),
    ("fracture", Some(Kind::Density)),
    ("change", Some(Kind::Pressure)),
    ("mud alone", None),
];

const MATRIX: &[(&str, Option<Kind>)] = &[
    ("influx", None),
    ("back pressure as planned", None),
    ("above the plan, inside its limit", None),
    ("above its limit", None),
];

const CLOSE: &str = "pick up, stop pumps, close the preventers";

fn make(maker: &mut Maker) -> Result<(), Refused> {
    let scene = maker.scene;
    let Some(plan) = Plan::new(scene, &mut maker.working) else {
        return Err(Refused::new(
            "the section is drilled without back pressure",
            "give `[section.managed_pressure]` in the well file, or choose another section with --section",
        ));
    };
    let plan = plan.map_err(Refused::missing)?;
    maker.heading("the anchor");
    maker.figure("measured depth", plan.anchor[0], Kind::Depth);
    maker.figure("pressure held there", plan.target, Kind::Pressure);
    maker.figure("back pressure while pumping", plan.managed.flowing, Kind::Pressure);
    maker.figure("back pressure with the pumps off", plan.still(), Kind::Pressure);
    let off = plan.still() - plan.managed.still;
    maker.figure("the well file's own figure, pumps off", plan.managed.still, Kind::Pressure);
    maker.figure("the anchor's less the file's", off, Kind::Pressure);

    maker.heading("stopping the pumps; starting them is the same from below");
    let rows = plan.steps.iter().enumerate().map(|(index, step)| {
        let values = [step.flow_rate, step.loss, step.back_pressure];
        std::iter::once(index as f64).chain(values).map(Cell::Value).collect()
    });
    maker.table("at each step wait until the pressure is steady", RAMP, rows.collect());

    maker.heading("what that does at every depth of open hole");
    let mut under = false;
    let rows = plan.depths.iter().map(|at| {
        let weight = |pressure| equivalent_weight(scene, pressure, &at.point);
        let alone = maker_mud(scene, at.point.vertical_depth) >= at.point.pore;
        under |= !alone;
        vec![
            Cell::Value(at.point.depth),
            Cell::Value(weight(at.point.floor())),
            Cell::Value(weight(at.pumping)),
            Cell::Value(weight(at.still)),
            at.point.fracture.map_or(Cell::Blank, |fracture| Cell::Value(weight(fracture))),
            Cell::Value(at.still - at.pumping),
            Cell::Words(if alone { "holds" } else { "UNDER balance" }),
        ]
    });
    let rows = rows.collect();
    maker.table("as mud weights", DEPTHS, rows);
    if under {
        maker.warn("The mud alone does not hold this well: without back pressure it flows, and back pressure is a barrier. A preventer must be closed before it is let off, for whatever reason.");
    } else {
        maker.say("The mud alone holds every depth of open hole: without back pressure the well stays over balance.");
    }
    matrix(maker, &plan);
    Ok(())
}

fn maker_mud(scene: &crate::Scene, vertical_depth: f64) -> f64 {
    scene.section().mud.weight * scene.gravity() * vertical_depth
}

/// What is done, by influx and back pressure, with the crew's own limits.
fn matrix(maker: &mut Maker, plan: &Plan) {
    maker.heading("what is done, by influx and back pressure");
    let managed = plan.managed;
    let limits = [
        ("influx_operating", managed.influx_operating),
        ("influx_planned", managed.influx_planned),
        ("pressure_limit", managed.pressure_limit),
    ];
    let missing: Vec<&str> = limits.iter().filter(|(_, value)| value.is_none()).map(|(key, _)| *key).collect();
    let (Some(operating), Some(planned), Some(limit)) =
        (managed.influx_operating, managed.influx_planned, managed.pressure_limit)
    else {
        maker.warn(format!(
            "No matrix without the crew's own limits: `[section.managed_pressure]` lacks {}. Until they are agreed any influx is closed in.",
            missing.join(", ")
        ));
        return;
    };
    maker.figure("influx, operating limit", operating, Kind::Volume);
    maker.figure("influx, planned limit", planned, Kind::Volume);
    maker.figure("back pressure as planned: up to", plan.still().max(managed.still), Kind::Pressure);
    maker.figure("limit of back pressure", limit, Kind::Pressure);
    let row = |cells: [&'static str; 4]| cells.map(Cell::Words).to_vec();
    let rows = vec![
        row(["none", "go on", "go on; find out why", CLOSE]),
        row(["up to the operating limit", "put back pressure up; go on", "stop drilling; put flow or back pressure up", CLOSE]),
        row([
            "up to the planned limit",
            "stop drilling; circulate it out through the managed choke",
            "stop drilling; circulate it out if the forecast stays inside the limit, else close the preventers",
            CLOSE,
        ]),
        row(["above the planned limit", CLOSE, CLOSE, CLOSE]),
    ];
    maker.table("inside the crew's own limits", MATRIX, rows);
}
