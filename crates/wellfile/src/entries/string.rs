//! Rows of the drill string, from the bit up.

use crate::entry::{Entry, Form, quantity, row, table, tables};
use crate::knobs::NOZZLE_AREA;
use rigwright_physics::Range;
use rigwright_units::Kind::{Area, Density, Depth, Diameter, FlowRate, Force, LinearMass, Pressure, Stress, Temperature, Torque};

/// Words of `part`.
pub(crate) const PARTS: &[&str] = &["bit", "motor", "tool", "stabiliser", "collar", "heavy-weight", "drill-pipe"];
/// Words of `class`.
pub(crate) const CLASSES: &[&str] = &["new", "premium", "class-2"];

/// Length of one run of parts.
const LENGTH: Range = Range { low: 0.0, low_included: false, high: 15_000.0, high_included: true };
const AREA: Range = Range { low: 0.0, low_included: false, high: 0.02, high_included: true };

pub(super) const ROWS: &[Entry] = &[
    row("section[].string", Form::Text, "12 1/4 in", "name of a section above whose string is used again")
        .needed("unless parts are listed"),
    table("section[].bit", "another bit on that string").optional(),
    quantity("section[].bit.diameter", Diameter, "8 1/2 in", "bit diameter"),
    quantity("section[].bit.length", Depth, "1 ft", "length").must(LENGTH),
    quantity("section[].bit.weight", LinearMass, "100 lb/ft", "weight per length"),
    row("section[].bit.nozzles", Form::Nozzles, "3x14", "nozzles: number x size in 32nds of an inch")
        .needed("unless `flow_area` is given"),
    quantity("section[].bit.flow_area", Area, "0.45 in2", "total flow area").must(AREA).needed("unless `nozzles` is given"),
    tables("section[].string[]", "parts from the bit up; the last reaches to surface")
        .needed("unless `string` names a section above"),
    row("section[].string[].part", Form::Choice(PARTS), "bit", "what it is"),
    row("section[].string[].name", Form::Text, "bit", "name for print; left out, the word of `part`").optional(),
    quantity("section[].string[].diameter", Diameter, "12 1/4 in", "bit diameter").needed("for a bit"),
    quantity("section[].string[].outside", Diameter, "8 in", "outside diameter of the body").needed("except for a bit"),
    quantity("section[].string[].inside", Diameter, "2 13/16 in", "inside diameter of the body")
        .needed("except for a bit, and for drill pipe with `nominal`"),
    quantity("section[].string[].nominal", LinearMass, "19.5 lb/ft", "nominal weight of drill pipe: gives the inside diameter")
        .optional(),
    quantity("section[].string[].length", Depth, "540 ft", "length").must(LENGTH).needed("except for the last part"),
    quantity("section[].string[].weight", LinearMass, "150 lb/ft", "weight per length in air, joints included"),
    quantity("section[].string[].joint_outside", Diameter, "6 5/8 in", "outside diameter of the tool joints").unknown(),
    quantity("section[].string[].joint_inside", Diameter, "3 1/4 in", "inside diameter of the tool joints")
        .computed("the inside of the body", "common practice where the joint is not given"),
    quantity("section[].string[].tool_joint", Depth, "17 in", "length of a tool joint, pin and box together")
        .must(Range::between(0.1, 2.5))
        .computed("17 in for drill pipe, 48 in for heavy-weight pipe", "common practice: pin 7 in and box 10 in, twice 24 in"),
    quantity("section[].string[].make_up", Torque, "25.6 kft-lbf", "make-up torque of the joints, from the maker's sheet")
        .unknown(),
    row(
        "section[].string[].connection",
        Form::Text,
        "NC50",
        "upper connection: gives the make-up torque of pipe, unless `make_up` does; safety valves name theirs likewise",
    )
    .unknown(),
    quantity("section[].string[].trigger_up", Force, "90 klbf", "pull at which a jar fires upwards").optional(),
    quantity("section[].string[].trigger_down", Force, "40 klbf", "push at which a jar fires downwards").optional(),
    row("section[].string[].grade", Form::Text, "S-135", "grade, gives the yield strength")
        .needed("for drill pipe, unless `yield` is given"),
    quantity("section[].string[].yield", Stress, "135 ksi", "yield strength of the body").needed("unless `grade` is given"),
    row("section[].string[].class", Form::Choice(CLASSES), "premium", "class of wear: wall that is left")
        .computed("premium for drill pipe, new for the rest", "common practice"),
    row("section[].string[].nozzles", Form::Nozzles, "3x20, 1x16", "nozzles: number x size in 32nds of an inch")
        .needed("for a bit, unless `flow_area` is given")
        .knob(&NOZZLE_AREA),
    quantity("section[].string[].flow_area", Area, "1.1 in2", "total flow area of the nozzles")
        .must(AREA)
        .needed("for a bit, unless `nozzles` is given"),
    quantity(
        "section[].string[].tool_loss",
        Pressure,
        "500 psi",
        "pressure that the tool takes at `tool_flow` and `tool_weight`",
    )
    .unknown(),
    quantity("section[].string[].tool_flow", FlowRate, "600 gpm", "flow at which `tool_loss` was given")
        .needed("with `tool_loss`"),
    quantity(
        "section[].string[].tool_weight",
        Density,
        "8.34 ppg",
        "mud weight at which `tool_loss` was given: 8.34 ppg is water",
    )
    .must(Range::between(800.0, 2_700.0))
    .needed("with `tool_loss`"),
    quantity("section[].string[].flow_least", FlowRate, "400 gpm", "least flow with which a motor or tool works").unknown(),
    quantity("section[].string[].flow_most", FlowRate, "900 gpm", "greatest flow that a motor or tool bears").unknown(),
    quantity("section[].string[].temperature_limit", Temperature, "300 degF", "temperature that a motor or tool bears").unknown(),
    quantity("section[].string[].joint_length", Depth, "31 ft", "length of one joint")
        .must(Range::between(2.0, 20.0))
        .default("31 ft", "common practice: range 2"),
];
