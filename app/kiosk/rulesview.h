// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/choices.h"
#include "kiosk/settingslists.h"
#include "kiosk/siteasks.h"

#include <QObject>
#include <QtQmlIntegration>

namespace ramplight {

/// The house rules as a form: begin() fills it, save() signs all that was changed at once. Limits
/// of the country stand beside the house's own and cannot be changed. GUI thread.
class RulesView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the settings")
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)
    Q_PROPERTY(bool changed READ changed NOTIFY formChanged FINAL) ///< something is to be saved
    Q_PROPERTY(ramplight::LimitsModel* limits READ limits CONSTANT FINAL)
    Q_PROPERTY(ramplight::Choices* countries READ countries CONSTANT FINAL)
    Q_PROPERTY(ramplight::Choices* sides READ sides CONSTANT FINAL) ///< words for left and right
    Q_PROPERTY(ramplight::Choices* traffic READ traffic CONSTANT FINAL)
    Q_PROPERTY(ramplight::Choices* currencies READ currencies CONSTANT FINAL)
    Q_PROPERTY(ramplight::Choices* locks READ locks CONSTANT FINAL) ///< signed out after so long
    Q_PROPERTY(ramplight::Choices* mayBeLeft READ mayBeLeft CONSTANT FINAL)   ///< skills
    Q_PROPERTY(ramplight::Choices* photos READ photos CONSTANT FINAL)         ///< asked of all work
    Q_PROPERTY(ramplight::Choices* photoYears READ photoYears CONSTANT FINAL) ///< kept for so long
    Q_PROPERTY(QString shiftEnd READ shiftEnd NOTIFY formChanged FINAL)       ///< "17:30"
    Q_PROPERTY(bool finalCheckByWorker READ finalCheckByWorker WRITE setFinalCheckByWorker NOTIFY
                   formChanged FINAL)

public:
    RulesView(Desk& desk, Session& session, SiteBook& book, QObject* parent = nullptr);

    [[nodiscard]] Ask* ask() { return &m_ask; }
    [[nodiscard]] bool changed() const { return formRules() != m_book.rules(); }
    [[nodiscard]] LimitsModel* limits() { return &m_limits; }
    [[nodiscard]] Choices* countries() { return &m_countries; }
    [[nodiscard]] Choices* sides() { return &m_sides; }
    [[nodiscard]] Choices* traffic() { return &m_traffic; }
    [[nodiscard]] Choices* currencies() { return &m_currencies; }
    [[nodiscard]] Choices* locks() { return &m_locks; }
    [[nodiscard]] Choices* mayBeLeft() { return &m_mayBeLeft; }
    [[nodiscard]] Choices* photos() { return &m_photos; }
    [[nodiscard]] Choices* photoYears() { return &m_photoYears; }
    [[nodiscard]] QString shiftEnd() const;
    [[nodiscard]] bool finalCheckByWorker() const { return m_rules.finalCheckByWorker; }
    void setFinalCheckByWorker(bool allowed);

    /// The form as the house has it.
    Q_INVOKABLE void begin();
    /// Digits as typed ("3.5"); nothing takes the house's own value back. Digits that are none are
    /// refused.
    Q_INVOKABLE void setLimit(const QString& rowId, const QString& text);
    Q_INVOKABLE void moveShiftEnd(int minutes);
    Q_INVOKABLE void save();

signals:
    void formChanged();

private:
    void rebuild();
    void followCountry();
    [[nodiscard]] HouseRules formRules() const;

    SiteBook& m_book;
    Ask m_ask;
    SiteAsks m_asks;
    HouseRules m_rules; ///< what is in no list of choices
    LimitsModel m_limits;
    Choices m_countries;
    Choices m_sides;
    Choices m_traffic;
    Choices m_currencies;
    Choices m_locks;
    Choices m_mayBeLeft;
    Choices m_photos;
    Choices m_photoYears;
    bool m_filling = false;
};

} // namespace ramplight
