// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/ask.h"
#include "kiosk/keeping.h"
#include "kiosk/sitebook.h"

#include <QObject>
#include <QtQmlIntegration>

#include <functional>

namespace ramplight {

/// How this kiosk draws and sounds; kept with the kiosk, not in the ledger.
struct ScreenSettings
{
    double diagonalInches = 24; ///< as the maker of the screen states it
    bool light = false;
    bool lessMotion = false;
    bool sounds = false; ///< a tone when somebody signed, another when something was refused

    friend bool operator==(const ScreenSettings&, const ScreenSettings&) = default;
};

using ScreenKeeper = Keeping<ScreenSettings>::Keeper;

/// The screen of this kiosk, changed by somebody who may manage. What is set holds as soon as it is
/// kept; what cannot be kept is told, and can be tried again. GUI thread.
class ScreenView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the settings")
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)
    Q_PROPERTY(QString diagonalText READ diagonalText NOTIFY changed FINAL) ///< inches, "31.5"
    Q_PROPERTY(bool light READ light NOTIFY changed FINAL)
    Q_PROPERTY(bool lessMotion READ lessMotion NOTIFY changed FINAL)
    Q_PROPERTY(bool sounds READ sounds NOTIFY changed FINAL)

public:
    /// An empty keeper keeps nothing beyond this start.
    ScreenView(Session& session, SiteBook& book, const ScreenSettings& now, ScreenKeeper keeper,
               QObject* parent = nullptr);

    [[nodiscard]] Ask* ask() { return &m_ask; }
    [[nodiscard]] const ScreenSettings& settings() const { return m_now; }
    [[nodiscard]] QString diagonalText() const;
    [[nodiscard]] bool light() const { return m_now.light; }
    [[nodiscard]] bool lessMotion() const { return m_now.lessMotion; }
    [[nodiscard]] bool sounds() const { return m_now.sounds; }

    Q_INVOKABLE void setDiagonal(const QString& inches);
    Q_INVOKABLE void setLight(bool light);
    Q_INVOKABLE void setLessMotion(bool less);
    Q_INVOKABLE void setSounds(bool on);

signals:
    void changed();

private:
    using Change = std::function<void(ScreenSettings& settings)>;
    void set(const QString& what, const Change& change);
    void keep(const QString& what, const Change& change);

    Session& m_session;
    SiteBook& m_book;
    Ask m_ask;
    ScreenSettings m_now;
    Keeping<ScreenSettings> m_keeping;
};

} // namespace ramplight
