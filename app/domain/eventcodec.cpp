// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/eventcodec.h"

#include "domain/jsontext.h"

#include <QJsonDocument>
#include <QJsonParseError>

#include <algorithm>

namespace ramplight {

namespace {

int versionOf(QLatin1StringView type, Upcasters known)
{
    int version = 1;
    for (const Upcaster& upcaster : known)
        if (upcaster.type == type)
            version = std::max(version, upcaster.from + 1);
    return version;
}

/// A body of that version, step by step made one of today.
void raise(QJsonObject& body, QLatin1StringView type, int from, Upcasters known)
{
    for (const int today = versionOf(type, known); from < today; ++from)
        for (const Upcaster& upcaster : known)
            if (upcaster.type == type && upcaster.from == from)
                upcaster.raise(body);
}

template <class Event>
EncodedEvent encodeVariant(const Event& event, Upcasters known)
{
    return std::visit(
        [&](const auto& e) {
            const QLatin1StringView type(std::decay_t<decltype(e)>::type);
            return EncodedEvent{QString(type), versionOf(type, known), jsonText(e)};
        },
        event);
}

template <class Variant, std::size_t Index = 0>
tl::expected<Variant, EventFault> decodeVariant(const EncodedEvent& encoded, QJsonObject& body,
                                                Upcasters known)
{
    if constexpr (Index == Variant::kinds) {
        return tl::unexpected(EventFault{
            QStringLiteral("The entry \"%1\" is not known to this version.").arg(encoded.type),
            true});
    } else {
        using E = Variant::template Kind<Index>;
        constexpr QLatin1StringView type(E::type);
        if (encoded.type != type)
            return decodeVariant<Variant, Index + 1>(encoded, body, known);
        if (const int today = versionOf(type, known);
            encoded.version < 1 || encoded.version > today)
            return tl::unexpected(EventFault{
                QStringLiteral("The entry \"%1\" has version %2; this program reads up to %3.")
                    .arg(encoded.type)
                    .arg(encoded.version)
                    .arg(today),
                encoded.version > today});
        raise(body, type, encoded.version, known);
        E event;
        if (const CodecError error = fromJson(body, event); !error.isEmpty())
            return tl::unexpected(EventFault{QStringLiteral("The entry \"%1\" cannot be read: %2.")
                                                 .arg(encoded.type, error.words())});
        return Variant(std::move(event));
    }
}

template <class Variant>
tl::expected<Variant, EventFault> decode(const EncodedEvent& encoded, Upcasters known)
{
    auto body = bodyOf(encoded.body);
    if (!body)
        return tl::unexpected(body.error());
    return decodeVariant<Variant>(encoded, *body, known);
}

} // namespace

Upcasters upcasters()
{
    // {CarMoved::type, 1, [](QJsonObject& body) { ... }}, and an entry of it into a golden ledger.
    return {};
}

tl::expected<QJsonObject, EventFault> bodyOf(const QByteArray& text)
{
    QJsonParseError error{};
    const QJsonDocument document = QJsonDocument::fromJson(text, &error);
    if (!document.isObject())
        return tl::unexpected(
            EventFault{QStringLiteral("its body is no JSON object (%1)").arg(error.errorString())});
    return document.object();
}

EncodedEvent encode(const CarEvent& event, Upcasters known)
{
    return encodeVariant(event, known);
}

EncodedEvent encode(const SiteEvent& event, Upcasters known)
{
    return encodeVariant(event, known);
}

tl::expected<CarEvent, EventFault> decodeCarEvent(const EncodedEvent& encoded, Upcasters known)
{
    return decode<CarEvent>(encoded, known);
}

tl::expected<SiteEvent, EventFault> decodeSiteEvent(const EncodedEvent& encoded, Upcasters known)
{
    return decode<SiteEvent>(encoded, known);
}

} // namespace ramplight
