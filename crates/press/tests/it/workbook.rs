//! Workbooks, worked out again by a spreadsheet engine of others (ironcalc): what its formulas give is what we say.

use crate::{demo, with_desk};
use ironcalc::base::Model;
use ironcalc::base::cell::CellValue;
use ironcalc::import::load_from_xlsx_bytes;
use rigwright_press::workbook;
use rigwright_units::System;

/// Cells keep fifteen digits, and differences of near numbers lose some.
const NEAR: f64 = 1e-6;

fn model(bytes: &[u8]) -> Model<'static> {
    let book = load_from_xlsx_bytes(bytes, "rig-fit", "en", "UTC").expect("it is a workbook");
    Model::from_workbook(book, "en").expect("its formulas read")
}

fn bytes(name: &str, units: System) -> Vec<u8> {
    with_desk(&demo(name), units, None, |desk| workbook(desk, "rig-fit").expect("rig-fit has a workbook"))
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

#[test]
fn another_program_works_out_the_same() {
    for (name, units) in [("ostrick.toml", System::Field), ("ostrick.toml", System::Metric), ("tolvane.toml", System::Canadian)] {
        let mut model = model(&bytes(name, units));
        let ours = formulas(&model);
        model.evaluate();
        let theirs = formulas(&model);
        assert_eq!(ours.len(), theirs.len());
        let mut live = [0, 0];
        for ((sheet, row, column, ours), (.., theirs)) in ours.iter().zip(&theirs) {
            live[usize::from(*sheet > 0)] += 1;
            match (ours, theirs) {
                (CellValue::Number(ours), CellValue::Number(theirs)) => {
                    let near = (ours - theirs).abs() <= NEAR * ours.abs().max(1e-6);
                    assert!(near, "{name}, sheet {sheet}, row {row}, column {column}: {ours} and {theirs}");
                }
                (CellValue::String(ours), CellValue::String(theirs)) => assert_eq!(ours, theirs),
                other => panic!("{name}, sheet {sheet}, row {row}, column {column}: {other:?}"),
            }
        }
        // Answers have three formulas each; the five workings are chains of many.
        assert!(live[0] > 150 && live[1] > 60, "{name}: {live:?}");
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
