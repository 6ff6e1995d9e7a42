// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "desk/workshopdesk.h"

#include <utility>

namespace ramplight::test {

/// How a write fails.
enum class WriteFault {
    None,
    NothingWritten, ///< the disk was full
    AnswerLost,     ///< it is in the ledger, and nobody was told
    PhotoNotKept,   ///< before the ledger was asked at all
};

/// The desk of the house, whose next write fails once when it is told so. GUI thread.
class FaultyDesk : public WorkshopDesk
{
public:
    using WorkshopDesk::WorkshopDesk;

    void failOnce(WriteFault fault) { m_fault = fault; }
    /// Whether that has come about.
    [[nodiscard]] bool hasFailed() const { return m_fault == WriteFault::None; }
    [[nodiscard]] static StoreError fault()
    {
        return {StoreErrorKind::Unavailable,
                QStringLiteral("The disk is full. What was entered is still here: make room and "
                               "try again.")};
    }

    [[nodiscard]] Answer<CarOutcome> run(const CarRequest& request) override
    {
        return runOrFail<CarOutcome>([&] { return WorkshopDesk::run(request); });
    }
    [[nodiscard]] Answer<SiteOutcome> run(const SiteRequest& request) override
    {
        return runOrFail<SiteOutcome>([&] { return WorkshopDesk::run(request); });
    }
    [[nodiscard]] Answer<SiteOutcome> runWithPin(const SiteRequest& request, Secret pin) override
    {
        return runOrFail<SiteOutcome>(
            [&] { return WorkshopDesk::runWithPin(request, std::move(pin)); });
    }
    [[nodiscard]] QFuture<tl::expected<PhotoTaken, EvidenceError>>
    keepPhotoFile(const QString& path) override
    {
        using Result = tl::expected<PhotoTaken, EvidenceError>;
        if (m_fault != WriteFault::PhotoNotKept)
            return WorkshopDesk::keepPhotoFile(path);
        m_fault = WriteFault::None;
        return QtFuture::makeReadyFuture(Result(tl::unexpected(EvidenceError::DiskFull)));
    }

private:
    template <class Outcome, class Run>
    Answer<Outcome> runOrFail(Run run)
    {
        using Result = tl::expected<Outcome, Failure>;
        const Result failed = tl::unexpected<Failure>(fault());
        if (m_fault == WriteFault::None || m_fault == WriteFault::PhotoNotKept)
            return run();
        if (std::exchange(m_fault, WriteFault::None) == WriteFault::NothingWritten)
            return QtFuture::makeReadyFuture(failed);
        return run().then([failed](const Result&) { return failed; });
    }

    WriteFault m_fault = WriteFault::None;
};

} // namespace ramplight::test
