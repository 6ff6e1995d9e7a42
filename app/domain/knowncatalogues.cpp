// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/knowncatalogues.h"

#include "domain/eventcodec.h"
#include "domain/housecatalogue.h"

#include <algorithm>

namespace ramplight {

namespace {

OperationSpec withoutWordsOfPhotos(OperationSpec spec)
{
    for (PhotoSpec& photo : spec.photos)
        photo.title.clear();
    return spec;
}

} // namespace

const LeastAsked* LeastCatalogue::find(const QString& operation) const
{
    const auto found = std::ranges::find(operations, operation, &LeastAsked::operation);
    return found == operations.end() ? nullptr : &*found;
}

tl::expected<LeastCatalogue, QString> readLeast(const QByteArray& json)
{
    const auto object = bodyOf(json);
    if (!object)
        return tl::unexpected(object.error().words);
    LeastCatalogue least;
    if (const CodecError error = fromJson(*object, least); !error.isEmpty())
        return tl::unexpected(error.words());
    return least;
}

QStringList notAsked(const OperationSpec& spec, const LeastAsked& least)
{
    QStringList missing;
    if (least.safety && !spec.safety)
        missing.append(QStringLiteral("safety"));
    if (least.secondPerson != SecondPerson::None && spec.secondPerson != least.secondPerson)
        missing.append(QStringLiteral("second person"));
    for (const LeastReading& always : least.readings)
        if (std::ranges::none_of(spec.readings, [&](const ReadingSpec& reading) {
                return reading.key == always.key && reading.kind == always.kind &&
                       !reading.optional;
            }))
            missing.append(always.key);
    return missing;
}

bool asksTheSame(const OperationSpec& one, const OperationSpec& other)
{
    return withoutWordsOfPhotos(one) == withoutWordsOfPhotos(other);
}

KnownCatalogues::KnownCatalogues(const Catalogue& shipped, LeastCatalogue least)
    : m_shipped(&shipped)
    , m_least(std::move(least))
{
}

const Catalogue* KnownCatalogues::inForce(const SiteState& site, const QString& hash) const
{
    const bool ownOne = m_shipped != nullptr && m_shipped->hash == hash;
    if (!site.adopted.catalogue && !ownOne)
        return nullptr;
    if (!m_made || m_made->adopted != site.adopted || m_made->adjustments != site.adjustments ||
        m_made->rules != site.rules) {
        static const Catalogue none;
        m_made = Made{site.adopted, site.adjustments, site.rules,
                      houseCatalogue(m_shipped == nullptr ? none : *m_shipped, site)};
    }
    return &m_made->catalogue;
}

bool KnownCatalogues::isWithout(const SiteState& site, const QString& operation) const
{
    const Catalogue* known = site.adopted.catalogue ? site.adopted.catalogue.get() : m_shipped;
    return known != nullptr && known->find(operation) == nullptr;
}

const LeastCatalogue* KnownCatalogues::least(const SiteState& site) const
{
    return m_least && !site.adopted.catalogue ? &*m_least : nullptr;
}

} // namespace ramplight
