//! Workbooks, worked out again by a spreadsheet engine of others (ironcalc): what its formulas give is what we say.

use crate::{demo, with_desk};
use ironcalc::base::Model;
use ironcalc::base::cell::CellValue;
use ironcalc::import::load_from_xlsx_bytes;
use rigwright_margins::kill_sheet::Constants;
use rigwright_margins::trip_sheet::{Order, Run, trip_sheet, trip_sheet_by};
use rigwright_papers::paper::{Desk, trip_order};
use rigwright_physics::Off;
use rigwright_press::{WORKBOOKS, trip_book, workbook};
use rigwright_units::{Kind, System, unit};

/// Cells keep fifteen digits, and differences of near numbers lose some.
const NEAR: f64 = 1e-6;

fn model(bytes: &[u8]) -> Model<'static> {
    let book = load_from_xlsx_bytes(bytes, "book", "en", "UTC").expect("it is a workbook");
    Model::from_workbook(book, "en").expect("its formulas read")
}

fn bytes_of(name: &str, units: System, paper: &str) -> Vec<u8> {
    with_desk(&demo(name), units, None, |desk| workbook(desk, paper).expect("it has a workbook"))
}

fn bytes(name: &str, units: System) -> Vec<u8> {
    bytes_of(name, units, "rig-fit")
}

/// Every cell with a formula: sheet, row, column and value.
fn formulas(model: &Model) -> Vec<(u32, i32, i32, CellValue)> {
    let cells = model.get_all_cells();
    let with_formula =
        cells.iter().filter(|cell| model.get_cell_formula(cell.index, cell.row, cell.column).expect("a cell").is_some());
    with_formula
        .map(|cell| {
            let value = model.get_cell_value_by_index(cell.index, cell.row, cell.column).expect("a value");
            (cell.index, cell.row, cell.column, value)
        })
        .collect()
}

/// Works every formula out again and holds it to what we wrote beside it; how many formulas each sheet has.
fn works_out_the_same(name: &str, bytes: &[u8]) -> Vec<usize> {
    let mut model = model(bytes);
    let ours = formulas(&model);
    model.evaluate();
    let theirs = formulas(&model);
    assert_eq!(ours.len(), theirs.len());
    let mut live = vec![0; 9];
    for ((sheet, row, column, ours), (.., theirs)) in ours.iter().zip(&theirs) {
        live[*sheet as usize] += 1;
        match (ours, theirs) {
            (CellValue::Number(ours), CellValue::Number(theirs)) => {
                // A nought that is the difference of two depths lacks what their last digits lack.
                let near = (ours - theirs).abs() <= NEAR * ours.abs().max(1e-3);
                assert!(near, "{name}, sheet {sheet}, row {row}, column {column}: {ours} and {theirs}");
            }
            (CellValue::String(ours), CellValue::String(theirs)) => assert_eq!(ours, theirs),
            other => panic!("{name}, sheet {sheet}, row {row}, column {column}: {other:?}"),
        }
    }
    live
}

#[test]
fn another_program_works_out_the_same() {
    for (name, units) in [("ostrick.toml", System::Field), ("ostrick.toml", System::Metric), ("tolvane.toml", System::Canadian)] {
        let live = works_out_the_same(name, &bytes(name, units));
        // Answers have three formulas each; the five workings are chains of many.
        assert!(live[0] > 150 && live[1..].iter().sum::<usize>() > 60, "{name}: {live:?}");
    }
}

/// The cell of a name: its row and column.
fn named(model: &Model, name: &str) -> (i32, i32) {
    let (_, _, cell) =
        model.get_defined_name_list().into_iter().find(|(named, ..)| named == name).unwrap_or_else(|| panic!("{name} is a name"));
    let mut parts = cell.split('$').skip(1);
    let column = parts.next().expect("a column").bytes().next().expect("a letter") - b'A' + 1;
    (parts.next().expect("a row").parse().expect("a number"), i32::from(column))
}

fn number(model: &Model, sheet: u32, row: i32, column: i32) -> f64 {
    match model.get_cell_value_by_index(sheet, row, column).expect("a cell") {
        CellValue::Number(number) => number,
        other => panic!("sheet {sheet}, row {row}, column {column}: {other:?}"),
    }
}

fn is_empty(model: &Model, row: i32, column: i32) -> bool {
    let value = model.get_cell_value_by_index(0, row, column).expect("a cell");
    value == CellValue::None || value == CellValue::String(String::new())
}

/// Line of the first row of a trip.
const FIRST: i32 = 6;

#[test]
fn another_program_fills_the_hole_as_the_trip_sheet_does() {
    for (name, units) in [
        ("ostrick.toml", System::Field),
        ("ostrick.toml", System::Metric),
        ("tolvane.toml", System::Canadian),
        ("quellmere.toml", System::Field),
    ] {
        let bytes = bytes_of(name, units, "trip-sheet");
        let live = works_out_the_same(name, &bytes);
        let mut model = model(&bytes);
        model.evaluate();
        with_desk(&demo(name), units, None, |desk| {
            let sheet = trip_sheet(desk.subject.fit, &trip_order(desk), &mut Off).expect("there is a trip sheet");
            assert!(live[0] >= 9 * sheet.rows.len() && live[2] >= 3 * sheet.rows.len(), "{name}: {live:?}");
            let near = |row: i32, column: i32, value: f64, kind: Kind| {
                let (theirs, ours) = (number(&model, 0, row, column), unit(kind, units).from_si(value));
                assert!((theirs - ours).abs() <= NEAR * ours.abs().max(1.0), "{name}, {row}, {column}: {theirs} {ours}");
            };
            for (row, of) in (FIRST..).zip(&sheet.rows) {
                near(row, 2, of.bit_depth, Kind::Depth);
                near(row, 4, of.volume, Kind::Volume);
                near(row, 5, of.total, Kind::Volume);
                near(row, 11, of.fall.expect("it falls"), Kind::Depth);
                near(row, 12, of.drop.expect("it falls"), Kind::Pressure);
                assert!((7..11).all(|column| is_empty(&model, row, column)), "{name}, {row}: nothing is measured yet");
            }
        });
    }
}

#[test]
fn every_way_of_a_trip_has_its_workbook() {
    with_desk(&demo("tolvane.toml"), System::Metric, None, |desk| {
        let end = desk.subject.fit.well.sections[2].casing.as_ref().expect("a liner is run").shoe;
        for run in [Run::Casing { float: true }, Run::Casing { float: false }, Run::In { float: true }, Run::Out { wet: true }] {
            for constants in [Constants::EXACT, Constants::TRADE] {
                let order = Order { section: 2, bit_depth: end, run, ..trip_order(desk) };
                let sheet = trip_sheet_by(desk.subject.fit, &order, constants, &mut Off).expect("there is a trip sheet");
                let live = works_out_the_same("tolvane", &trip_book(desk, &sheet).expect("it is written"));
                assert!(live[0] > 6 * sheet.rows.len(), "{run:?}: {live:?}");
            }
        }
    });
}

/// By hand: a stand of 93 ft that leaves 0.008 bbl/ft behind wants 0.744 bbl, two of them 1.488; of 100 ft, 0.8 bbl.
#[test]
fn a_changed_pipe_changes_the_fill_and_measured_volumes_are_compared() {
    let mut model = model(&bytes_of("ostrick.toml", System::Field, "trip-sheet"));
    let (row, column) = named(&model, "pipe_1_displacement");
    model.update_cell_with_number(1, row, column, 0.008).expect("it is changed");
    model.evaluate();
    let near = |model: &Model, row: i32, column: i32, value: f64| {
        let theirs = number(model, 0, row, column);
        assert!((theirs - value).abs() < 1e-9, "{row}, {column}: {theirs} {value}");
    };
    near(&model, FIRST, 4, 0.744);
    near(&model, FIRST + 1, 5, 1.488);
    // Measured: the first row half a barrel, the second nothing, the third a barrel.
    model.update_cell_with_number(0, FIRST, 7, 0.5).expect("it is entered");
    model.update_cell_with_number(0, FIRST + 2, 7, 1.0).expect("it is entered");
    model.evaluate();
    near(&model, FIRST, 9, -0.244);
    near(&model, FIRST, 10, -0.244);
    assert!((8..11).all(|column| is_empty(&model, FIRST + 1, column)), "nothing is measured there");
    near(&model, FIRST + 2, 9, 0.256);
    assert!(is_empty(&model, FIRST + 2, 10), "a row above it is empty");
    model.update_cell_with_number(0, FIRST + 1, 7, 0.744).expect("it is entered");
    model.evaluate();
    near(&model, FIRST + 2, 10, 0.012);
    // Longer stands: the last rows have nothing left to move, and the whole is as much as before.
    let whole = last_total(&model);
    let (row, column) = named(&model, "stand");
    model.update_cell_with_number(1, row, column, 100.0).expect("it is changed");
    model.evaluate();
    near(&model, FIRST, 4, 0.8);
    assert!((last_total(&model) / whole - 1.0).abs() < 1e-9);
}

/// Volume in all of the last row.
fn last_total(model: &Model) -> f64 {
    let mut row = FIRST;
    while !is_empty(model, row + 1, 5) {
        row += 1;
    }
    number(model, 0, row, 5)
}

#[test]
fn a_blank_kill_sheet_is_worked_out_by_another_program() {
    let live = works_out_the_same("ostrick", &bytes_of("ostrick.toml", System::Field, "kill-sheet"));
    assert!(live[0] > 20, "{live:?}");
}

#[test]
fn what_cannot_be_made_has_no_workbook_and_says_why() {
    with_desk(&demo("quellmere.toml"), System::Field, None, |desk| {
        let desk = Desk { section: Some(0), ..*desk };
        let refused = workbook(&desk, "trip-sheet").expect_err("the hole is open to the sea");
        assert!(refused.to_string().contains("open to the sea"), "{refused}");
    });
    for paper in WORKBOOKS {
        assert!(bytes_of("ostrick.toml", System::Field, paper).starts_with(b"PK"), "{paper}");
    }
}

#[test]
fn a_changed_input_changes_the_verdict() {
    let mut model = model(&bytes("ostrick.toml", System::Field));
    let (_, _, cell) = model
        .get_defined_name_list()
        .into_iter()
        .find(|(name, ..)| name == "hoisting_hook_load_s3_demand")
        .expect("the demand has a name");
    let row: i32 = cell.rsplit('$').next().expect("a row").parse().expect("a number");
    let value = |model: &Model, column: i32| model.get_cell_value_by_index(0, row, column).expect("a cell");
    let CellValue::Number(limit) = value(&model, 5) else { panic!("a limit is a number") };
    model.evaluate();
    assert_eq!(value(&model, 9), CellValue::String("holds".to_owned()));
    model.update_cell_with_number(0, row, 4, limit + 1.0).expect("it is changed");
    model.evaluate();
    assert_eq!(value(&model, 9), CellValue::String("short".to_owned()));
    model.update_cell_with_number(0, row, 4, limit - 1.0).expect("it is changed");
    model.evaluate();
    assert_eq!(value(&model, 9), CellValue::String("thin".to_owned()));
}

#[test]
fn a_paper_without_a_workbook_says_so() {
    with_desk(&demo("ostrick.toml"), System::Field, None, |desk| {
        let none = workbook(desk, "handover").expect_err("it has none");
        assert_eq!(none.to_string(), "the paper `handover` has no workbook");
    });
}
