// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/limitchecks.h"

#include <QSet>

#include <algorithm>

namespace ramplight {

namespace {

const NamedLimit* find(const std::vector<NamedLimit>& limits, const QString& name)
{
    const auto at = std::ranges::find(limits, name, &NamedLimit::name);
    return at == limits.end() ? nullptr : &*at;
}

class LimitChecker
{
public:
    explicit LimitChecker(const Catalogue& catalogue)
        : m_catalogue(catalogue)
    {
    }

    QStringList run()
    {
        check(QStringLiteral("house"), m_catalogue.houseLimits);
        for (const NamedLimit& limit : m_catalogue.houseLimits)
            if (limit.owner != LimitOwner::House)
                say(QStringLiteral("house"), limit, QStringLiteral("its owner is the house"));
        QSet<QString> ids;
        for (const Country& country : m_catalogue.countries) {
            if (ids.contains(country.id))
                m_faults.append(
                    QStringLiteral("country %1, id: there are two of this id").arg(country.id));
            ids.insert(country.id);
            check(country);
        }
        uses();
        return m_faults;
    }

private:
    void say(const QString& where, const NamedLimit& limit, const QString& what)
    {
        m_faults.append(QStringLiteral("%1, limit %2: %3").arg(where, limit.name, what));
    }

    void check(const QString& where, const std::vector<NamedLimit>& limits)
    {
        QSet<QString> names;
        for (const NamedLimit& limit : limits) {
            if (names.contains(limit.name))
                say(where, limit, QStringLiteral("it is there twice"));
            names.insert(limit.name);
            if (limit.title.trimmed().isEmpty())
                say(where, limit, QStringLiteral("a title was expected"));
            if (limit.source.trimmed().isEmpty())
                say(where, limit, QStringLiteral("where it can be looked up was expected"));
            if (!limit.min && !limit.max)
                say(where, limit, QStringLiteral("min or max was expected"));
            if (limit.min && limit.max && *limit.min > *limit.max)
                say(where, limit, QStringLiteral("min is above max"));
        }
    }

    void check(const Country& country)
    {
        const QString where = QStringLiteral("country %1").arg(country.id);
        check(where, country.limits);
        for (const NamedLimit& limit : country.limits) {
            if (!limit.source.trimmed().isEmpty() &&
                !limit.source.endsWith(QStringLiteral("verify locally")))
                say(where, limit, QStringLiteral("its source ends with \"verify locally\""));
            if (find(m_catalogue.houseLimits, limit.name) != nullptr)
                say(where, limit, QStringLiteral("the house has one of this name"));
        }
        for (const Country& other : m_catalogue.countries)
            for (const NamedLimit& limit : other.limits) {
                const NamedLimit* own = find(country.limits, limit.name);
                if (own == nullptr)
                    say(where, limit, QStringLiteral("it is missing, %1 has it").arg(other.title));
                else if (own->unit != limit.unit || own->decimals != limit.decimals)
                    say(where, limit,
                        QStringLiteral("unit and decimals are not those of %1").arg(other.title));
            }
    }

    [[nodiscard]] const NamedLimit* named(const QString& name) const
    {
        if (const NamedLimit* house = find(m_catalogue.houseLimits, name))
            return house;
        return m_catalogue.countries.empty() ? nullptr
                                             : find(m_catalogue.countries.front().limits, name);
    }

    void uses()
    {
        for (const OperationSpec& operation : m_catalogue.operations) {
            if (operation.fresh && !operation.fresh->named.isEmpty())
                use(QStringLiteral("operation %1, fresh").arg(operation.id), operation.fresh->named,
                    Unit::Day, 0);
            for (const ReadingSpec& reading : operation.readings)
                for (const Limit& limit : reading.limits)
                    if (!limit.named.isEmpty())
                        use(QStringLiteral("operation %1, reading %2")
                                .arg(operation.id, reading.key),
                            limit.named, reading.unit, reading.decimals);
        }
        if (!m_catalogue.tread.named.isEmpty())
            use(QStringLiteral("tread"), m_catalogue.tread.named, Unit::Millimetre, 1);
    }

    void use(const QString& where, const QString& name, Unit unit, int decimals)
    {
        const NamedLimit* limit = named(name);
        if (limit == nullptr)
            m_faults.append(
                QStringLiteral("%1, limits: no country and no house limit is called \"%2\"")
                    .arg(where, name));
        else if (limit->unit != unit || limit->decimals != decimals)
            say(where, *limit,
                QStringLiteral("its unit or decimals are not those of what uses it"));
    }

    const Catalogue& m_catalogue;
    QStringList m_faults;
};

} // namespace

QStringList checkNamedLimits(const Catalogue& catalogue)
{
    return LimitChecker(catalogue).run();
}

} // namespace ramplight
