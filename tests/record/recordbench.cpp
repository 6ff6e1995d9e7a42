// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "recordbench.h"

#include <QBuffer>
#include <QCryptographicHash>
#include <QPainter>

namespace ramplight::test {

tl::expected<StoredPhoto, EvidenceError> DrawnVault::keep(const QImage&)
{
    return tl::unexpected(EvidenceError::NotPermitted);
}

tl::expected<QByteArray, EvidenceError> DrawnVault::open(const PhotoId& id) const
{
    return thumbnail(id, ThumbnailSize::Panel);
}

tl::expected<QByteArray, EvidenceError> DrawnVault::thumbnail(const PhotoId& id,
                                                              ThumbnailSize size) const
{
    if (lost.contains(id))
        return tl::unexpected(EvidenceError::NoSuchPhoto);
    const int side = static_cast<int>(size);
    QImage image(side, side * 3 / 4, QImage::Format_RGB32);
    const auto hue = static_cast<int>(qHash(id.text) % 360);
    image.fill(QColor::fromHsv(hue, 60, 170));
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(QColor::fromHsv(hue, 90, 80), side / 40.0));
    painter.drawEllipse(image.rect().center(), side / 4, side / 4);
    painter.drawEllipse(image.rect().center(), side / 12, side / 12);
    painter.end();
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, "JPEG");
    return bytes;
}

tl::expected<VaultReport, EvidenceError> DrawnVault::verify(const std::set<PhotoId>&) const
{
    return VaultReport{};
}

RecordBench::RecordBench(const HouseRules& rules)
    : Workbench(rules)
{
}

std::vector<CarEnvelope> RecordBench::history(const CarId& id)
{
    return ledger.history(id).value_or(std::vector<CarEnvelope>{});
}

SiteState RecordBench::site()
{
    return ledger.site().value_or(SiteState{});
}

RecordHead RecordBench::head(const CarId& id)
{
    return headAt(id, car(id).seq);
}

RecordHead RecordBench::headAt(const CarId& id, qint64 seq)
{
    const QByteArray text = QStringLiteral("%1 %2").arg(id.text).arg(seq).toUtf8();
    return {seq, QString::fromLatin1(
                     QCryptographicHash::hash(text, QCryptographicHash::Sha256).toHex())};
}

RecordModel RecordBench::record(const CarId& id)
{
    return buildRecord(car(id), history(id), site(), head(id), line, clock.now());
}

FindingId RecordBench::foundTo(const CarId& id, const char* place, Condition condition,
                               Remedy remedy)
{
    const FindingId made{car(id).nextFinding};
    FindingData data = finding(place, condition);
    data.severity = Severity::Moderate;
    data.remedies = {remedy};
    data.note = QStringLiteral("seen from two metres");
    must(appraiser, id, car::RecordFinding{data, {}});
    return made;
}

CarId RecordBench::worked()
{
    const CarId id = bringIn();
    Identity identity = car(id).identity;
    identity.registration = QStringLiteral("QK 4471");
    identity.colour = QStringLiteral("slate blue");
    identity.paintCode = QStringLiteral("S-118");
    must(manager, id, car::CorrectIdentity{identity, QStringLiteral("read off the plate")});
    std::vector<PlaceId> places;
    for (const SafetyPlace& safety : car(id).safetyPlaces)
        places.push_back(safety.place);
    must(appraiser, id, car::FindSound{places});
    must(appraiser, id, car::RecordTread{at("tyre-front-left"), {28, 31, 30}});
    const FindingId kerbed = foundTo(id, "wheel-rear-left", Condition::Kerbed, Remedy::Refurbish);
    must(appraiser, id,
         car::AttachPhoto{photo(), PhotoMoment::Before, at("wheel-rear-left"), {}, kerbed});
    foundTo(id, "bonnet", Condition::Chip, Remedy::TouchIn);
    foundTo(id, "roof", Condition::Scratch, Remedy::Leave);
    const FindingId dirt = foundTo(id, "wing-left", Condition::Scratch, Remedy::TouchIn);
    must(appraiser, id, car::FinishAppraisal{});
    must(appraiser, id,
         car::CorrectFinding{dirt, {}, false, QStringLiteral("it was dirt"), photo()});

    chip = open(id, "touch-in", "bonnet");
    must(manager, id, car::LeaveAsIs{chip, QStringLiteral("two small chips on the bonnet")});
    tyre = open(id, "tyre-fit");
    refurb = open(id, "wheel-refurb");
    start(id, refurb, wheels);
    clock.pass(95);
    must(wheels, id, car::PauseWork{refurb, wheels, StopKind::Paused});
    const SegmentId stretch = operation(id, refurb).segments.front().id;
    must(manager, id,
         car::CorrectMinutes{refurb, stretch, 40, QStringLiteral("forgot to stop at lunch")});
    close(id, refurb);
    closeAll(id);
    must(checker, id, car::Reopen{refurb, QStringLiteral("lacquer has a run")});
    closeAll(id);
    clock.pass(120);
    return id;
}

CarId RecordBench::battered()
{
    const CarId id = bringIn();
    for (const PlaceInfo& place : allPlaces())
        foundTo(id, qPrintable(place.id.text), Condition::Scratch, Remedy::Leave);
    must(appraiser, id, car::FinishAppraisal{});
    return id;
}

} // namespace ramplight::test
