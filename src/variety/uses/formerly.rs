//! Ids that uses had in earlier files and commands.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde::Deserialize;

use crate::measure::same_id;
use crate::problem::read_ron;

/// Each old id, and the one that stands in its place.
static FORMERLY: LazyLock<Formerly> = LazyLock::new(|| {
    let text = include_str!("../../../assets/formerly.ron");
    read_ron("formerly.ron", text).expect("the embedded table is read by a test")
});

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Formerly {
    uses: BTreeMap<String, String>,
}

/// The id of the use that `written` stands for: the id in its place where it is an old one, else
/// `written` itself, which need not be a use's.
///
/// # Panics
/// Never: a test reads the embedded table.
pub fn use_id(written: &str) -> &str {
    let same = || FORMERLY.uses.iter().find(|(old, _)| same_id(written, old));
    let present = FORMERLY.uses.get_key_value(written).or_else(same);
    present.map_or(written, |(_, present)| present.as_str())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::variety::Uses;

    #[test]
    fn every_old_id_leads_to_a_use_and_is_none_itself() {
        let uses = Uses::embedded();
        assert!(!FORMERLY.uses.is_empty());
        for (old, present) in &FORMERLY.uses {
            let at = uses.find(old).expect(old);
            assert_eq!(uses.list()[at].id, *present);
            assert_eq!(use_id(present), present, "{old} leads to an old id");
            assert!(uses.list().iter().all(|one| one.id != *old), "{old}");
        }
        assert_eq!(use_id("worn"), "worn");
        assert_eq!(uses.find("tuck"), None);
    }

    /// A table that was copied when the old id stood in it.
    #[test]
    fn a_growers_own_table_with_an_old_id_is_read() {
        let text = r#"(
  weighs: (diameter: 2, stem: 2, vase: 6, stands: 20, height: 2, stated: 3),
  forms: [],
  uses: [(id: "tuck-in", name: "tuck-in", means: "ours", wants: [(of: vase, weight: 1, curve: [(2, 0)])])],
)"#;
        let uses = Uses::read("uses.ron", text).expect("read");
        let one = &uses.list()[uses.find("filler").expect("by its new id")];
        assert_eq!((one.id.as_str(), one.name.as_str()), ("filler", "tuck-in"));
        assert_eq!(uses.find("tuck-in"), Some(0));
        let twice = text.replace(
            "uses: [",
            r#"uses: [(id: "filler", name: "", means: "", wants: [(of: vase, weight: 1, curve: [(2, 0)])]), "#,
        );
        let told = Uses::read("uses.ron", &twice).expect_err("twice")[0].to_string();
        assert!(
            told.contains("found the use \"filler\" a second time"),
            "{told}"
        );
    }
}
