//! Who goes by a variety's name, told before the name is given up.

/// A sentence of the things that go by a name, given as clauses; `None` where there are none.
pub fn named_by(name: &str, things: &[String]) -> Option<String> {
    let (last, rest) = things.split_last()?;
    let all = match rest {
        [] => last.clone(),
        rest => format!("{} and {last}", rest.join(", ")),
    };
    Some(format!(
        "The name {name} stays in {all}, where it is then no variety of the list."
    ))
}
