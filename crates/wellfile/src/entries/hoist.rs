//! Rows of the rig file: mast, blocks, drawworks, line and drive.

use crate::entry::{Entry, Form, number, quantity, row, table, whole};
use crate::knobs::LINES;
use rigwright_physics::Range;
use rigwright_units::Kind::{
    Acceleration, Count, Depth, Diameter, Force, Fraction, LineWork, Power, Ratio, RotarySpeed, Speed, Torque,
};

/// Words of `kind`.
pub(crate) const DRIVES: &[&str] = &["rotary-table", "top-drive"];

const RP9B: &str = "API RP 9B (from memory)";
const SHEAVES: Range = Range::between(1.0, 20.0);
const STAND: Range = Range::between(5.0, 60.0);
const FACTOR: Range = Range::between(1.0, 10.0);

pub(super) const ROWS: &[Entry] = &[
    row("rig.name", Form::Text, "New rig", "name of the rig"),
    // Mast
    table("rig.mast", "mast and floor"),
    row(
        "rig.mast.hook_load",
        Form::Pairs { key: Count, value: Force },
        "{ 8 = \"500 klbf\", 10 = \"580 klbf\" }",
        "rated static hook load by lines strung",
    ),
    quantity("rig.mast.stand", Depth, "93 ft", "length of a stand")
        .must(STAND)
        .default("93 ft", "common practice: three joints of range 2"),
    whole("rig.mast.racking", "130", "room for stands in the fingerboard").unknown(),
    quantity("rig.mast.setback", Force, "400 klbf", "load that the setback bears").unknown(),
    quantity("rig.mast.rotary_load", Force, "700 klbf", "rotary load that the substructure bears together with a full setback")
        .unknown(),
    quantity("rig.mast.leg_rating", Force, "300 klbf", "load that one leg bears, where a derrick of four legs is rated so")
        .optional(),
    quantity("rig.mast.clear_height", Depth, "142 ft", "height from the floor to the crown that is free for the block")
        .must(Range::between(10.0, 100.0))
        .unknown(),
    // Blocks
    table("rig.crown", "crown block"),
    whole("rig.crown.sheaves", "6", "sheaves, that of the fast line included").must(SHEAVES),
    quantity("rig.crown.rating", Force, "800 klbf", "load that it bears: hook, fast and dead line together").unknown(),
    quantity("rig.crown.weight", Force, "9 klbf", "weight of the crown block").unknown(),
    table("rig.block", "travelling block with hook"),
    whole("rig.block.sheaves", "5", "sheaves").must(SHEAVES),
    quantity("rig.block.weight", Force, "20 klbf", "weight of block and hook, without a top drive"),
    quantity("rig.block.rating", Force, "700 klbf", "load that the block bears").unknown(),
    quantity("rig.block.hook_rating", Force, "700 klbf", "load that the hook bears").unknown(),
    quantity(
        "rig.block.length",
        Depth,
        "36 ft",
        "from the top of the block to where pipe hangs in the elevators, top drive included",
    )
    .must(Range::between(0.5, 50.0))
    .unknown(),
    table("rig.elevators", "elevators and links"),
    quantity("rig.elevators.rating", Force, "600 klbf", "load that they bear").unknown(),
    quantity(
        "rig.elevators.casing_rating",
        Force,
        "1000 klbf",
        "load that those for casing bear; left out, that of the rig's own",
    )
    .optional(),
    table("rig.slips", "slips of the rotary table"),
    quantity("rig.slips.rating", Force, "700 klbf", "load that they bear").unknown(),
    quantity("rig.slips.casing_rating", Force, "1000 klbf", "load that the spider for casing bears").optional(),
    quantity("rig.slips.length", Diameter, "16 in", "length of pipe that they hold").must(Range::between(0.1, 1.0)).unknown(),
    number("rig.slips.friction", Ratio, "0.08", "friction between slips and bowl")
        .must(Range::between(0.01, 0.5))
        .default("0.08", "a clean, greased bowl presses the pipe hardest; IADC Drilling Manual (from memory)"),
    table("rig.tongs", "tongs, or the machine in their place"),
    quantity(
        "rig.tongs.torque",
        Torque,
        "55 kft-lbf",
        "greatest torque on the drill string, by their rating and by what pulls them",
    )
    .unknown(),
    quantity("rig.tongs.casing_torque", Torque, "35 kft-lbf", "greatest torque of the tong for casing").optional(),
    // Drawworks
    table("rig.drawworks", "drawworks"),
    quantity("rig.drawworks.power", Power, "1200 hp", "input power"),
    quantity("rig.drawworks.line_pull", Force, "85 klbf", "largest pull on the fast line"),
    number("rig.drawworks.efficiency", Fraction, "0.88", "share of input power that reaches the drum")
        .must(Range::EFFICIENCY)
        .default("0.85", "common practice: chain or gear drive"),
    quantity("rig.drawworks.hoisting_speed", Speed, "90 ft/min", "mean block speed wanted with the heaviest string")
        .default("90 ft/min", "common practice"),
    quantity(
        "rig.drawworks.block_speed",
        Speed,
        "5 ft/s",
        "greatest speed of the block with the lines of the rig; with others it goes with the speed of the line",
    )
    .default("5 ft/s", "common practice"),
    quantity("rig.drawworks.acceleration", Acceleration, "0.5 m/s2", "how fast the block speeds up and slows down")
        .must(Range::between(0.01, 5.0))
        .default("0.5 m/s2", "common practice: 0.3 to 1 m/s²"),
    quantity("rig.drawworks.brake_power", Power, "1500 hp", "power that the brakes take up for as long as it lasts").unknown(),
    quantity("rig.drawworks.brake_torque", Torque, "80 kft-lbf", "torque that the brakes hold on the drum").unknown(),
    quantity("rig.drawworks.drum", Diameter, "28 in", "diameter of the bare drum").unknown(),
    number("rig.drawworks.wraps", Ratio, "38", "wraps of line on a full layer").must(Range::between(5.0, 200.0)).unknown(),
    number("rig.drawworks.dead_wraps", Ratio, "10", "wraps that stay on the drum with the block at its lowest")
        .must(Range::between(0.0, 50.0))
        .default("10", "common practice: 9 to 12"),
    // Line
    table("rig.line", "drilling line and how it is strung"),
    quantity("rig.line.diameter", Diameter, "1 1/4 in", "diameter"),
    quantity("rig.line.strength", Force, "159 klbf", "nominal strength, from the certificate"),
    whole("rig.line.strung", "10", "lines strung between the blocks").must(Range::between(2.0, 20.0)).knob(&LINES),
    number("rig.line.sheave_factor", Ratio, "1.04", "tension ratio at a turning sheave")
        .must(Range::between(1.0, 1.2))
        .default("1.04", "API RP 9B, sheaves on roller bearings"),
    number("rig.line.design_factor", Ratio, "3", "smallest design factor for drilling and tripping")
        .must(FACTOR)
        .default("3", RP9B),
    number("rig.line.casing_design_factor", Ratio, "2", "smallest design factor for running casing and for overpull")
        .must(FACTOR)
        .default("2", RP9B),
    quantity("rig.line.anchor_rating", Force, "80 klbf", "pull that the anchor of the dead line bears").unknown(),
    quantity("rig.line.cut_work", LineWork, "1400 ton-mile", "line work after which the rig slips and cuts").unknown(),
    quantity("rig.line.work_since_cut", LineWork, "200 ton-mile", "line work since the last cut").unknown(),
    whole("rig.line.slips", "1", "times that the line is slipped, without cutting, between two cuts")
        .must(Range::between(0.0, 10.0))
        .default("0", "the line is slipped when it is cut"),
    number("rig.line.service_factor", Ratio, "1.0", "line work that a length may do, over the same at a design factor of 5")
        .must(Range::between(0.1, 2.0))
        .default("1.0", "API RP 9B, service factor at a design factor of 5"),
    quantity("rig.line.on_reel", Depth, "2500 ft", "line left on the storage reel").unknown(),
    table("rig.raising_line", "line that raises the mast"),
    quantity("rig.raising_line.strength", Force, "350 klbf", "nominal strength of the line, of all its parts together").unknown(),
    quantity("rig.raising_line.pull", Force, "110 klbf", "largest pull on it while the mast is raised, from the maker's sheet")
        .unknown(),
    number("rig.raising_line.design_factor", Ratio, "2.5", "smallest design factor").must(FACTOR).default("2.5", RP9B),
    // Drive
    table("rig.drive", "what turns the string"),
    row("rig.drive.kind", Form::Choice(DRIVES), "top-drive", "rotary table with kelly, or top drive"),
    quantity("rig.drive.torque", Torque, "30 kft-lbf", "continuous torque up to the base speed"),
    quantity("rig.drive.speed", RotarySpeed, "180 rpm", "largest speed").must(Range::POSITIVE),
    quantity("rig.drive.power", Power, "700 hp", "output power"),
    quantity("rig.drive.weight", Force, "22 klbf", "weight hung in the block").needed("for a top drive"),
    quantity("rig.drive.rating", Force, "800 klbf", "load that a top drive bears").unknown(),
];
