// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/entry.h"

#include "storage/lengthprefixed.h"

#include "domain/codec.h"

#include <sodium.h>

#include <utility>

namespace ramplight {
namespace {

const QString& carPrefix()
{
    static const QString prefix = QStringLiteral("car/");
    return prefix;
}

} // namespace

QString siteStream()
{
    return QStringLiteral("site");
}

QString headsStream()
{
    return QStringLiteral("heads");
}

QString carStream(const CarId& car)
{
    return carPrefix() + car.text;
}

CarId carOfStream(const QString& stream)
{
    return stream.startsWith(carPrefix()) ? CarId{stream.mid(carPrefix().size())} : CarId{};
}

QString hashOf(const SiteId& site, const Entry& entry)
{
    LengthPrefixed fields("ramplight-entry-1");
    fields.add(site.text)
        .add(entry.stream)
        .add(entry.seq)
        .add(entry.at.ms)
        .add(qint64{entry.actor.value})
        .add(entry.command.text)
        .add(entry.type)
        .add(qint64{entry.version})
        .add(entry.body)
        .add(entry.prevHash);
    // Of each entry that is written or read: Qt's takes twice as long.
    QByteArray digest(crypto_hash_sha256_BYTES, Qt::Uninitialized);
    const QByteArray bytes = fields.bytes();
    crypto_hash_sha256(reinterpret_cast<unsigned char*>(digest.data()),
                       reinterpret_cast<const unsigned char*>(bytes.constData()),
                       static_cast<unsigned long long>(bytes.size()));
    return QString::fromLatin1(digest.toHex());
}

QByteArray sealedBytes(const SiteId& site, qint64 seq, const QString& prevHash, const Heads& heads)
{
    LengthPrefixed fields("ramplight-heads-1");
    fields.add(site.text).add(seq).add(prevHash);
    for (const Head& head : heads.heads)
        fields.add(head.stream).add(head.seq).add(head.hash);
    if (heads.staffSealed)
        fields.add(QByteArrayLiteral("staff-sealed"));
    if (heads.staffNumber != 0)
        fields.add(QByteArrayLiteral("staff-number")).add(heads.staffNumber);
    return fields.bytes();
}

Heads sealHeads(const HeadKeeper& keeper, const SiteId& site, qint64 seq, const QString& prevHash,
                Heads heads)
{
    heads.key.clear();
    heads.seal.clear();
    if (keeper.canSeal()) {
        heads.key = keeper.keyId;
        heads.seal =
            QString::fromLatin1(keeper.digest(sealedBytes(site, seq, prevHash, heads)).toHex());
    }
    return heads;
}

tl::expected<CarEnvelope, EventFault> carEnvelopeOf(const Entry& entry)
{
    auto event = decodeCarEvent({entry.type, entry.version, entry.body});
    if (!event)
        return tl::unexpected(event.error());
    return CarEnvelope{entry.seq, entry.at, entry.actor, entry.command, std::move(*event)};
}

tl::expected<SiteEnvelope, EventFault> siteEnvelopeOf(const Entry& entry)
{
    auto event = decodeSiteEvent({entry.type, entry.version, entry.body});
    if (!event)
        return tl::unexpected(event.error());
    return SiteEnvelope{entry.seq, entry.at, entry.actor, entry.command, std::move(*event)};
}

EventFault faultOf(const Entry& entry)
{
    const auto blankOr = [](const auto& read) { return read ? EventFault{} : read.error(); };
    if (entry.stream == siteStream())
        return blankOr(siteEnvelopeOf(entry));
    if (!carOfStream(entry.stream).isEmpty())
        return blankOr(carEnvelopeOf(entry));
    return {QStringLiteral("no stream of that name belongs to a site")};
}

tl::expected<Heads, EventFault> headsOf(const Entry& entry)
{
    const auto body = bodyOf(entry.body);
    if (!body)
        return tl::unexpected(body.error());
    if (entry.type != QLatin1StringView(Heads::type) || entry.version != Heads::version)
        return tl::unexpected(
            EventFault{QStringLiteral("%1 version %2 is not known to this program")
                           .arg(entry.type)
                           .arg(entry.version),
                       true});
    Heads heads;
    if (const CodecError error = fromJson(*body, heads); !error.isEmpty())
        return tl::unexpected(EventFault{error.words()});
    return heads;
}

} // namespace ramplight
