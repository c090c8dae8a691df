//! Rows of the layers of rock.

use crate::entry::{Entry, Form, quantity, row, tables};
use rigwright_units::Kind::Depth;

pub(super) const ROWS: &[Entry] = &[
    tables("formation[]", "layers of rock from the top down; depths are vertical"),
    row("formation[].name", Form::Text, "First shale", "name of the layer"),
    quantity("formation[].top", Depth, "3000 ft", "vertical depth of the top")
        .computed("zero for the first", "the first layer begins at the datum"),
    quantity("formation[].base", Depth, "6000 ft", "vertical depth of the base")
        .computed("the next top; for the last, the end of the well", "no layer is left out between two others"),
    row("formation[].rock", Form::Text, "shale", "kind of rock").optional(),
    row("formation[].fluid", Form::Text, "water", "fluid expected in the pores").optional(),
    row(
        "formation[].pore",
        Form::FormationPressure,
        "[\"8.6 ppg\", \"9.0 ppg\"]",
        "pore pressure at top and base, or one for all",
    ),
    row("formation[].fracture", Form::FormationPressure, "[\"13.5 ppg\", \"15.0 ppg\"]", "pressure that opens the rock")
        .unknown(),
    row(
        "formation[].collapse",
        Form::FormationPressure,
        "8.8 ppg",
        "pressure below which the wall caves in; left out, pore pressure rules",
    )
    .optional(),
];
