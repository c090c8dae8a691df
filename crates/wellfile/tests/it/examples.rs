//! The example files read without a word, and mean what they say.

use crate::root;
use rigwright_wellfile::{Disk, read};

const WELLS: [&str; 2] = ["examples/ostrick.toml", "examples/tolvane.toml"];
const RIGS: [&str; 2] = ["examples/rigs/anvil-12.toml", "examples/rigs/harrow-3.toml"];

#[test]
fn law_examples_read_without_a_finding() {
    for well in WELLS {
        for rig in RIGS {
            let loaded = read(&root(well), Some(&root(rig)), &Disk)
                .unwrap_or_else(|findings| panic!("{well}: {findings}: {:#?}", findings.list));
            assert!(loaded.cautions.is_empty(), "{well}: {:#?}", loaded.cautions);
        }
        assert!(read(&root(well), None, &Disk).is_ok(), "{well} with its own rig");
    }
}
