// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/screenview.h"

#include "kiosk/siteasks.h"
#include "kiosk/typednumber.h"

#include <cmath>

namespace ramplight {

namespace {

constexpr int tenths = 10;
constexpr int leastTenths = 100;
constexpr int mostTenths = 1200;

} // namespace

ScreenView::ScreenView(Session& session, SiteBook& book, const ScreenSettings& now,
                       ScreenKeeper keeper, QObject* parent)
    : QObject(parent)
    , m_session(session)
    , m_book(book)
    , m_now(now)
    , m_keeping(std::move(keeper))
{
}

QString ScreenView::diagonalText() const
{
    return typedText(static_cast<int>(std::lround(m_now.diagonalInches * tenths)), 1);
}

void ScreenView::setDiagonal(const QString& inches)
{
    const QString what = QStringLiteral("diagonal");
    const auto typed = typedNumber(inches, 1);
    if (!typed || *typed < leastTenths || *typed > mostTenths) {
        m_ask.refuse(what, QStringLiteral("value-out-of-range"),
                     tr("A diagonal from 10 to 120 inches is needed."));
        return;
    }
    set(what, [inches = static_cast<double>(*typed) / tenths](ScreenSettings& settings) {
        settings.diagonalInches = inches;
    });
}

void ScreenView::setLight(bool light)
{
    set(QStringLiteral("light"), [light](ScreenSettings& settings) { settings.light = light; });
}

void ScreenView::setLessMotion(bool less)
{
    set(QStringLiteral("less-motion"),
        [less](ScreenSettings& settings) { settings.lessMotion = less; });
}

void ScreenView::setSounds(bool on)
{
    set(QStringLiteral("sounds"), [on](ScreenSettings& settings) { settings.sounds = on; });
}

void ScreenView::set(const QString& what, const Change& change)
{
    ScreenSettings wanted = m_now;
    change(wanted);
    if (wanted == m_now)
        return;
    whenManager(m_session, m_book, m_ask, what, tr("to change this screen"),
                [this, what, change] { keep(what, change); });
}

void ScreenView::keep(const QString& what, const Change& change)
{
    if (!m_ask.begin(what, [this, what, change] { keep(what, change); }))
        return;
    // Another change may have been kept while this one waited for its turn.
    ScreenSettings wanted = m_now;
    change(wanted);
    whenReady(m_keeping.keep(wanted), this, [this, wanted](const QString& fault) {
        if (!fault.isEmpty()) {
            m_ask.fail(QStringLiteral("store"), fault, true);
            return;
        }
        m_now = wanted;
        emit changed();
        m_ask.succeed();
    });
}

} // namespace ramplight
