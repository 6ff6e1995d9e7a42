// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "workbench.h"

#include "domain/keptrequest.h"

namespace ramplight::test {

/// A car with its inspection in hand at a workshop whose people may be at kiosks without it.
struct KeptScene
{
    KeptScene()
        : car(bench.appraised())
        , work(bench.open(car, "inspection"))
    {
        bench.start(car, work, bench.mechanic);
        bench.clock.pass(30);
    }

    /// A tyre was cut and another one fitted: work that is done, and the check that it owes.
    struct TyreFitted
    {
        OperationId fit;
        OperationId check;
    };
    TyreFitted tyreFitted()
    {
        bench.found(car, "tyre-front-left", Condition::Cut);
        const OperationId fit = bench.open(car, "tyre-fit");
        bench.close(car, fit);
        return {fit, bench.open(car, "wheel-fixing-check")};
    }
    /// What a kiosk keeps that is asked for it now.
    [[nodiscard]] KeptRequest kept(PersonId actor, const CarCommand& command)
    {
        const CommandId id{QStringLiteral("kept-%1").arg(++m_kept)};
        const CarRequest asked{id, actor, car, {command}, false};
        return {1, asked, bench.clock.now(), worksOf(asked, bench.ledger).value()};
    }
    /// The same, and done here as well: what is kept next is decided on it.
    [[nodiscard]] KeptRequest keptAndDone(PersonId actor, const CarCommand& command)
    {
        KeptRequest request = kept(actor, command);
        bench.must(actor, car, command);
        return request;
    }
    /// "sent", or why not. ours: what the same kiosk sent before.
    [[nodiscard]] QString send(const KeptRequest& kept, const std::set<CommandId>& ours = {})
    {
        return sendKept(kept, bench.ledger, bench.catalogue, ours)
            .value()
            .value_or(QStringLiteral("sent"));
    }
    [[nodiscard]] const std::vector<Segment>& segments()
    {
        return bench.operation(car, work).segments;
    }

    /// The newest finding.
    [[nodiscard]] Finding last()
    {
        const CarState state = bench.car(car);
        return *state.finding(FindingId{state.nextFinding - 1});
    }

    Workbench bench;
    CarId car;
    OperationId work;

private:
    int m_kept = 0;
};

inline car::RecordFinding loose(OperationId during = {})
{
    return {finding("steering", Condition::Loose), during};
}

} // namespace ramplight::test
