// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/catalogueview.h"

#include "kiosk/enumchoices.h"
#include "kiosk/limitrows.h"
#include "kiosk/timewords.h"
#include "kiosk/typednumber.h"

#include <algorithm>

namespace ramplight {

namespace {

constexpr int minorDecimals = 2;

QString moneyWords(std::optional<int> minor, const QString& currency)
{
    return minor ? QStringLiteral("%1 %2").arg(typedText(*minor, minorDecimals), currency)
                 : CatalogueView::tr("not entered");
}

} // namespace

CatalogueView::CatalogueView(Desk& desk, Session& session, SiteBook& book, QObject* parent)
    : QObject(parent)
    , m_book(book)
    , m_asks(desk, session, book, m_ask)
    , m_photos(true)
{
    m_photos.offer(rowsOf<PhotoMoment>());
    connect(&m_photos, &Choices::chosenChanged, this, &CatalogueView::formChanged);
    connect(&book, &SiteBook::changed, this, &CatalogueView::onSite);
}

QString CatalogueView::originWords() const
{
    return adopted() ? tr("taken in by this house") : tr("as shipped");
}

void CatalogueView::onSite()
{
    std::vector<KindRow> rows;
    for (const OperationSpec& spec : m_book.catalogue().operations) {
        KindRow row;
        row.kindId = spec.id;
        row.title = sentence(spec.title);
        row.skillWords = sentence(words(spec.skill));
        row.minutesWords = minutesSpan(spec.minutes.low, spec.minutes.high);
        row.materialWords = moneyWords(spec.materialMinor, m_book.rules().currency);
        row.safety = spec.safety;
        row.changed = m_book.site().adjustments.contains(spec.id);
        rows.push_back(row);
    }
    std::ranges::stable_sort(rows, {}, &KindRow::skillWords);
    m_kinds.setRows(std::move(rows));
    emit listChanged();
    rebuild();
}

const OperationSpec& CatalogueView::shipped() const
{
    static const OperationSpec none;
    const OperationSpec* spec = m_book.base().find(m_own.operation);
    return spec == nullptr ? none : *spec;
}

OperationAdjustment CatalogueView::kept() const
{
    const auto& all = m_book.site().adjustments;
    const auto found = all.find(m_own.operation);
    if (found != all.end())
        return found->second;
    OperationAdjustment none;
    none.operation = m_own.operation;
    return none;
}

OperationAdjustment CatalogueView::own() const
{
    OperationAdjustment adjustment = m_own;
    // A photo that has its words already keeps them.
    for (const PhotoMoment moment : chosenOf<PhotoMoment>(m_photos)) {
        const std::vector<PhotoSpec> before = kept().photos;
        const auto known = std::ranges::find(before, moment, &PhotoSpec::moment);
        adjustment.photos.push_back(
            known != before.end() ? *known : PhotoSpec{moment, tr("asked by the house")});
    }
    return adjustment;
}

OperationSpec CatalogueView::shown() const
{
    SiteState site;
    site.rules = m_book.rules();
    site.adjustments[m_own.operation] = own();
    Catalogue one;
    one.countries = m_book.base().countries;
    one.houseLimits = m_book.base().houseLimits;
    one.operations = {shipped()};
    return houseCatalogue(one, site).operations.front();
}

QString CatalogueView::kindTitle() const
{
    return sentence(shipped().title);
}

QString CatalogueView::aboutWords() const
{
    const OperationSpec& spec = shipped();
    QStringList parts{sentence(words(spec.skill))};
    if (spec.safety)
        parts.append(tr("safety item"));
    if (spec.secondPerson == SecondPerson::Check)
        parts.append(tr("a check by a second person"));
    if (spec.secondPerson == SecondPerson::Countersign)
        parts.append(tr("a second signature"));
    if (!spec.speciality.isEmpty())
        parts.append(specialityWords(spec.speciality));
    if (spec.qualification)
        parts.append(tr("qualification: %1").arg(words(*spec.qualification)));
    return dotted(parts);
}

QString CatalogueView::materialText() const
{
    const auto minor = shown().materialMinor;
    return minor ? typedText(*minor, minorDecimals) : QString();
}

QString CatalogueView::materialWords() const
{
    return moneyWords(shown().materialMinor, currency());
}

QStringList CatalogueView::evidence() const
{
    QStringList all;
    const OperationSpec spec = shown();
    for (const ReadingSpec& reading : spec.readings) {
        QStringList parts{sentence(reading.title)};
        if (reading.optional)
            parts.append(tr("where it applies"));
        if (reading.tool)
            parts.append(tr("with a %1").arg(words(*reading.tool)));
        all.append(dotted(parts));
    }
    for (const PhotoSpec& photo : spec.photos)
        all.append(tr("Photo %1: %2").arg(words(photo.moment), photo.title));
    return all;
}

void CatalogueView::edit(const QString& kindId)
{
    m_own = {};
    m_own.operation = kindId;
    const OperationAdjustment before = kept();
    QStringList moments;
    for (const PhotoSpec& photo : before.photos)
        moments.append(nameOf(photo.moment));
    m_photos.setChosen(moments);
    m_own = before;
    m_own.photos.clear();
    m_ask.dismiss();
    rebuild();
}

void CatalogueView::rebuild()
{
    m_limits.setRows(m_own.operation.isEmpty() ? std::vector<LimitRow>{}
                                               : limitRows(shown(), shipped()));
    emit formChanged();
}

void CatalogueView::setMinutes(const QString& which, const QString& text)
{
    const auto minutes = typedNumber(text, 0);
    if (!minutes) {
        m_ask.refuse(QStringLiteral("setMinutes"), QStringLiteral("value-out-of-range"),
                     minutes.error());
        return;
    }
    Minutes own = shown().minutes;
    (which == QLatin1String("low")     ? own.low
     : which == QLatin1String("usual") ? own.usual
                                       : own.high) = *minutes;
    m_own.minutes = own == shipped().minutes ? std::nullopt : std::optional(own);
    rebuild();
}

void CatalogueView::setMaterial(const QString& text)
{
    if (text.trimmed().isEmpty()) {
        m_own.materialMinor.reset();
        rebuild();
        return;
    }
    const auto minor = typedNumber(text, minorDecimals);
    if (!minor) {
        m_ask.refuse(QStringLiteral("setMaterial"), QStringLiteral("value-out-of-range"),
                     minor.error());
        return;
    }
    m_own.materialMinor = *minor;
    rebuild();
}

void CatalogueView::setLimit(const QString& rowId, const QString& text)
{
    const auto row = std::ranges::find(m_limits.rows(), rowId, &LimitRow::rowId);
    if (row == m_limits.rows().end() || !row->own)
        return;
    const QString key = rowId.section(QLatin1Char('/'), 0, 0);
    const auto reading = std::ranges::find(shipped().readings, key, &ReadingSpec::key);
    if (reading == shipped().readings.end())
        return;
    std::erase_if(m_own.limits, [&](const ReadingAdjustment& one) { return one.key == key; });
    if (!text.trimmed().isEmpty()) {
        const auto value = typedNumber(text, reading->decimals);
        if (!value) {
            m_ask.refuse(QStringLiteral("setLimit"), QStringLiteral("value-out-of-range"),
                         QStringLiteral("%1: %2").arg(reading->title, value.error()));
            return;
        }
        const Limit* before = ownLimit(*reading);
        ReadingAdjustment own{key, {}, {}};
        (before->min ? own.min : own.max) = *value;
        if (own.min != before->min || own.max != before->max)
            m_own.limits.push_back(own);
    }
    rebuild();
}

void CatalogueView::send(const QString& what, const OperationAdjustment& adjustment)
{
    m_asks.send(what, tr("to change %1").arg(kindTitle()), site::AdjustOperation{adjustment});
}

void CatalogueView::save()
{
    send(QStringLiteral("saveOperation"), own());
}

void CatalogueView::takeBack()
{
    OperationAdjustment none;
    none.operation = m_own.operation;
    m_photos.clear();
    m_own = none;
    send(QStringLiteral("saveOperation"), none);
}

} // namespace ramplight
