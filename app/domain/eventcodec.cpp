// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/eventcodec.h"

#include "domain/jsontext.h"

#include <QJsonDocument>
#include <QJsonParseError>

namespace ramplight {

namespace {

template <class Event>
EncodedEvent encodeVariant(const Event& event)
{
    return std::visit(
        [](const auto& e) {
            using E = std::decay_t<decltype(e)>;
            return EncodedEvent{QString::fromLatin1(E::type), 1, jsonText(e)};
        },
        event);
}

template <class Variant, std::size_t Index = 0>
tl::expected<Variant, EventFault> decodeVariant(const EncodedEvent& encoded,
                                                const QJsonObject& body)
{
    if constexpr (Index == Variant::kinds) {
        return tl::unexpected(EventFault{
            QStringLiteral("The entry \"%1\" is not known to this version.").arg(encoded.type)});
    } else {
        using E = Variant::template Kind<Index>;
        if (encoded.type != QLatin1StringView(E::type))
            return decodeVariant<Variant, Index + 1>(encoded, body);
        if (encoded.version != 1)
            return tl::unexpected(EventFault{
                QStringLiteral("The entry \"%1\" has version %2; this program reads version 1.")
                    .arg(encoded.type)
                    .arg(encoded.version)});
        E event;
        if (const CodecError error = fromJson(body, event); !error.isEmpty())
            return tl::unexpected(EventFault{QStringLiteral("The entry \"%1\" cannot be read: %2.")
                                                 .arg(encoded.type, error.words())});
        return Variant(std::move(event));
    }
}

template <class Variant>
tl::expected<Variant, EventFault> decode(const EncodedEvent& encoded)
{
    const auto body = bodyOf(encoded.body);
    if (!body)
        return tl::unexpected(body.error());
    return decodeVariant<Variant>(encoded, *body);
}

} // namespace

tl::expected<QJsonObject, EventFault> bodyOf(const QByteArray& text)
{
    QJsonParseError error{};
    const QJsonDocument document = QJsonDocument::fromJson(text, &error);
    if (!document.isObject())
        return tl::unexpected(
            EventFault{QStringLiteral("its body is no JSON object (%1)").arg(error.errorString())});
    return document.object();
}

EncodedEvent encode(const CarEvent& event)
{
    return encodeVariant(event);
}

EncodedEvent encode(const SiteEvent& event)
{
    return encodeVariant(event);
}

tl::expected<CarEvent, EventFault> decodeCarEvent(const EncodedEvent& encoded)
{
    return decode<CarEvent>(encoded);
}

tl::expected<SiteEvent, EventFault> decodeSiteEvent(const EncodedEvent& encoded)
{
    return decode<SiteEvent>(encoded);
}

} // namespace ramplight
