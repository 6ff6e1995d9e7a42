// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/forwardingledger.h"

#include <functional>
#include <utility>

namespace ramplight {

/// Says what the ledger behind it kept, once it is kept. For who wants to follow the demo
/// workshop's play, or to hold the store to its word.
class TellingLedger : public ForwardingLedger
{
public:
    using Told = std::function<void(const Append& kept)>;

    /// told is called after each append that behind accepted.
    TellingLedger(Ledger& behind, Told told)
        : ForwardingLedger(behind)
        , m_told(std::move(told))
    {
    }

    [[nodiscard]] tl::expected<void, StoreError> append(const Append& append) override
    {
        auto kept = behind().append(append);
        if (kept && m_told)
            m_told(append);
        return kept;
    }

private:
    Told m_told;
};

} // namespace ramplight
