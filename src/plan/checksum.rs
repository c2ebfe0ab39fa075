//! A short figure that changes when an input does, so that an old sheet shows beside a new one. It guards against mix-ups, not forgery.

use super::{Plan, format, inputs};

/// The FNV-1a hash of the plan's inputs as they are saved, its halves joined, as eight hexadecimal digits.
pub fn checksum(plan: &Plan) -> String {
    let hash = fnv1a_64(format::save(&inputs(plan)).as_bytes());
    format!("{:08X}", (hash >> 32) ^ (hash & 0xffff_ffff))
}

/// The 64-bit FNV-1a hash.
///
/// Source: G. Fowler, L. C. Noll, K.-P. Vo, D. Eastlake, "The FNV Non-Cryptographic Hash Algorithm" (IETF draft): offset basis
/// 14695981039346656037, prime 1099511628211.
pub fn fnv1a_64(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::sample;

    /// Test vectors of the FNV reference code (from memory): "", "a", "foobar".
    #[test]
    fn published_hashes() {
        assert_eq!(fnv1a_64(b""), 0xcbf2_9ce4_8422_2325);
        assert_eq!(fnv1a_64(b"a"), 0xaf63_dc4c_8601_ec8c);
        assert_eq!(fnv1a_64(b"foobar"), 0x8594_4171_f739_67e8);
    }

    #[test]
    fn a_changed_plan_has_another_figure() {
        let mut plan = sample::plan();
        let before = checksum(&plan);
        assert_eq!(before.len(), 8);
        assert_eq!(before, checksum(&sample::plan()));
        // who looked it over, and the units that it is shown in, are no inputs
        plan.project.reviewed_by = "J. Example".into();
        plan.project.units = crate::quantity::UnitSystem::Metric;
        assert_eq!(before, checksum(&plan));
        plan.project.revision = "B".into();
        assert_ne!(before, checksum(&plan));
    }
}
