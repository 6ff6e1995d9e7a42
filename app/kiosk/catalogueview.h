// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/choices.h"
#include "kiosk/settingslists.h"
#include "kiosk/siteasks.h"

#include <QObject>
#include <QtQmlIntegration>

namespace ramplight {

/// The catalogue as it holds in this house, and what the house changes in one operation. Use:
/// edit(kindId), set..., save(); takeBack() for the catalogue's own values. GUI thread.
class CatalogueView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the settings")
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)
    Q_PROPERTY(QString title READ title NOTIFY listChanged FINAL)
    /// Whose it is: "as shipped", "taken in by this house".
    Q_PROPERTY(QString originWords READ originWords NOTIFY listChanged FINAL)
    Q_PROPERTY(bool adopted READ adopted NOTIFY listChanged FINAL)
    Q_PROPERTY(ramplight::KindsModel* kinds READ kinds CONSTANT FINAL)
    // ---- the operation in the form
    Q_PROPERTY(QString kindId READ kindId NOTIFY formChanged FINAL)
    Q_PROPERTY(QString kindTitle READ kindTitle NOTIFY formChanged FINAL)
    /// "Wheels, safety item, checked by a second person, needs: high voltage"
    Q_PROPERTY(QString aboutWords READ aboutWords NOTIFY formChanged FINAL)
    Q_PROPERTY(int low READ low NOTIFY formChanged FINAL) ///< minutes
    Q_PROPERTY(int usual READ usual NOTIFY formChanged FINAL)
    Q_PROPERTY(int high READ high NOTIFY formChanged FINAL)
    Q_PROPERTY(QString materialText READ materialText NOTIFY formChanged FINAL) ///< empty: none
    Q_PROPERTY(QString materialWords READ materialWords NOTIFY formChanged FINAL)
    Q_PROPERTY(QString currency READ currency NOTIFY formChanged FINAL)
    Q_PROPERTY(ramplight::LimitsModel* limits READ limits CONSTANT FINAL)
    /// Readings and photos that sign-off asks for, in words.
    Q_PROPERTY(QStringList evidence READ evidence NOTIFY formChanged FINAL)
    /// Moments at which the house asks for one photo more.
    Q_PROPERTY(ramplight::Choices* photos READ photos CONSTANT FINAL)
    Q_PROPERTY(bool changed READ changed NOTIFY formChanged FINAL)   ///< something is to be saved
    Q_PROPERTY(bool adjusted READ adjusted NOTIFY formChanged FINAL) ///< the house changed it

public:
    CatalogueView(Desk& desk, Session& session, SiteBook& book, QObject* parent = nullptr);

    [[nodiscard]] Ask* ask() { return &m_ask; }
    [[nodiscard]] QString title() const { return m_book.catalogue().title; }
    [[nodiscard]] QString originWords() const;
    [[nodiscard]] bool adopted() const { return m_book.site().adopted.catalogue != nullptr; }
    [[nodiscard]] KindsModel* kinds() { return &m_kinds; }
    [[nodiscard]] QString kindId() const { return m_own.operation; }
    [[nodiscard]] QString kindTitle() const;
    [[nodiscard]] QString aboutWords() const;
    [[nodiscard]] int low() const { return shown().minutes.low; }
    [[nodiscard]] int usual() const { return shown().minutes.usual; }
    [[nodiscard]] int high() const { return shown().minutes.high; }
    [[nodiscard]] QString materialText() const;
    [[nodiscard]] QString materialWords() const;
    [[nodiscard]] QString currency() const { return m_book.rules().currency; }
    [[nodiscard]] LimitsModel* limits() { return &m_limits; }
    [[nodiscard]] QStringList evidence() const;
    [[nodiscard]] Choices* photos() { return &m_photos; }
    [[nodiscard]] bool changed() const { return own() != kept(); }
    [[nodiscard]] bool adjusted() const { return !kept().isEmpty(); }

    Q_INVOKABLE void edit(const QString& kindId);
    /// which: "low", "usual" or "high"; whole minutes as typed.
    Q_INVOKABLE void setMinutes(const QString& which, const QString& text);
    /// "12.50"; empty: not entered.
    Q_INVOKABLE void setMaterial(const QString& text);
    Q_INVOKABLE void setLimit(const QString& rowId, const QString& text);
    Q_INVOKABLE void save();
    /// The catalogue's own values again.
    Q_INVOKABLE void takeBack();

signals:
    void listChanged();
    void formChanged();

private:
    void onSite();
    void rebuild();
    [[nodiscard]] const OperationSpec& shipped() const;
    /// As the form has it.
    [[nodiscard]] OperationSpec shown() const;
    [[nodiscard]] OperationAdjustment own() const;
    /// What the house has in force.
    [[nodiscard]] OperationAdjustment kept() const;
    void send(const QString& what, const OperationAdjustment& adjustment);

    SiteBook& m_book;
    Ask m_ask;
    SiteAsks m_asks;
    KindsModel m_kinds;
    OperationAdjustment m_own; ///< without photos: those are in the choices
    LimitsModel m_limits;
    Choices m_photos;
};

} // namespace ramplight
