// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "../domain/workbench.h"

#include "evidence/photovault.h"
#include "record/recordmodel.h"

#include <set>

// Cars of the bench as records: through the real commands, with photos that are drawn when asked
// for.
namespace ramplight::test {

/// Every photo is here, each in a colour of its own, but those that are said to be lost.
class DrawnVault : public PhotoVault
{
public:
    tl::expected<StoredPhoto, EvidenceError> keep(const QImage& image) override;
    [[nodiscard]] tl::expected<QByteArray, EvidenceError> open(const PhotoId& id) const override;
    [[nodiscard]] tl::expected<QByteArray, EvidenceError>
    thumbnail(const PhotoId& id, ThumbnailSize size) const override;
    [[nodiscard]] tl::expected<VaultReport, EvidenceError>
    verify(const std::set<PhotoId>& known) const override;

    std::set<PhotoId> lost;
};

class RecordBench : public Workbench
{
public:
    explicit RecordBench(const HouseRules& rules = {});

    [[nodiscard]] RecordHead head(const CarId& id);
    [[nodiscard]] static RecordHead headAt(const CarId& id, qint64 seq);
    [[nodiscard]] RecordModel record(const CarId& id);
    [[nodiscard]] std::vector<CarEnvelope> history(const CarId& id);
    [[nodiscard]] SiteState site();
    /// Found with what is to be done about it.
    FindingId foundTo(const CarId& id, const char* place, Condition condition, Remedy remedy);

    /// A car with something of everything: a wheel refurbished with minutes corrected, a tyre
    /// fitted and torqued, a chip left as it is, a finding that was not there, a check that failed.
    CarId worked();
    /// A car with a finding at every place of the vocabulary.
    CarId battered();

    const QString line = QStringLiteral("Follow the maker's data and your local law.");
    OperationId refurb; ///< of worked()
    OperationId tyre;
    OperationId chip;
};

} // namespace ramplight::test
