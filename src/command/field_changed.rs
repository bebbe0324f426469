//! One field that a command changed, as it is told.

/// `  price: 4.50 -> 5.00`; what is not known is `?`.
pub(super) fn field_changed(field: &str, before: &str, after: &str) -> String {
    let shown = |text: &str| match text {
        "" => "?".to_string(),
        text => text.to_string(),
    };
    format!("  {field}: {} -> {}", shown(before), shown(after))
}
