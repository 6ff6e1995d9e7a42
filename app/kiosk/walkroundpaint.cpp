// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/walkroundpaint.h"

#include "domain/paintdepth.h"
#include "kiosk/typednumber.h"

#include <algorithm>

namespace ramplight {

namespace {

QString listed(const std::vector<int>& micrometres)
{
    QStringList parts;
    for (const int depth : micrometres)
        parts.append(QString::number(depth));
    return PaintPad::tr("%1 µm").arg(parts.join(QStringLiteral(", ")));
}

} // namespace

PaintPad::PaintPad(CarView& car, SiteBook& book, const Catalogue& catalogue, QObject* parent)
    : QObject(parent)
    , m_car(car)
    , m_book(book)
    , m_catalogue(catalogue)
{
}

bool PaintPad::possible() const
{
    const PlaceInfo* info = placeInfo(m_place);
    return info != nullptr && info->kind == PlaceKind::Panel && !m_car.car().released;
}

QString PaintPad::typedWords() const
{
    return m_micrometres.empty() ? QString() : listed(m_micrometres);
}

int PaintPad::missing() const
{
    const auto least = static_cast<int>(leastPaintPoints);
    return std::max(0, least - static_cast<int>(m_micrometres.size()));
}

void PaintPad::take(const QString& text)
{
    if (const auto depth = typedNumber(text, 0))
        m_micrometres.push_back(*depth);
    emit changed();
}

void PaintPad::goBack()
{
    if (!m_micrometres.empty())
        m_micrometres.pop_back();
    emit changed();
}

void PaintPad::begin(const PlaceId& place)
{
    m_place = place;
    m_micrometres.clear();
    rebuild();
}

void PaintPad::rebuild()
{
    m_comparedWords.clear();
    m_canConfirm = false;
    const PaintDepths& measured = m_car.car().paint;
    if (const auto here = measured.find(m_place); here != measured.end()) {
        const PaintComparison all = comparePaint(measured, m_catalogue, m_book.rules());
        const auto panel = std::ranges::find(all.panels, m_place, &PanelPaint::panel);
        const QString depths = listed(here->second);
        if (!all.enough)
            m_comparedWords = tr("Measured: %1. Compared once %2 panels are measured; %3 are.")
                                  .arg(depths)
                                  .arg(leastPaintPanels)
                                  .arg(measured.size());
        else if (panel == all.panels.end() || panel->sign == PaintSign::Alike)
            m_comparedWords =
                tr("Measured: %1. Like the other panels, %2 µm.").arg(depths).arg(all.median);
        else {
            m_comparedWords = tr("Measured: %1. %2").arg(depths, panel->words);
            m_canConfirm = !m_car.car().hasFinding(m_place, Condition::PreviousRepair);
        }
    }
    emit changed();
}

} // namespace ramplight
