// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "kiosk/choices.h"

#include <QDate>
#include <QObject>
#include <QtQmlIntegration>

namespace ramplight {

/// Identity and facts of a car while they are typed: on arrival, and to correct them. Texts are as
/// typed; the domain judges them. GUI thread.
class IdentityDraft : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from a view")
    Q_PROPERTY(QString stockNumber MEMBER m_stockNumber NOTIFY changed FINAL)
    Q_PROPERTY(QString registration MEMBER m_registration NOTIFY changed FINAL)
    Q_PROPERTY(QString vin MEMBER m_vin NOTIFY changed FINAL)
    /// What is wrong with the VIN, or what its check digit says; empty. Only the first keeps it
    /// out.
    Q_PROPERTY(QString vinFault READ vinFault NOTIFY changed FINAL)
    Q_PROPERTY(QString vinNote READ vinNote NOTIFY changed FINAL)
    Q_PROPERTY(QString make MEMBER m_make NOTIFY changed FINAL)
    Q_PROPERTY(QString model MEMBER m_model NOTIFY changed FINAL)
    Q_PROPERTY(QString colour MEMBER m_colour NOTIFY changed FINAL)
    Q_PROPERTY(QString paintCode MEMBER m_paintCode NOTIFY changed FINAL)
    Q_PROPERTY(QString odometer MEMBER m_odometer NOTIFY changed FINAL)     ///< digits
    Q_PROPERTY(bool kilometres MEMBER m_kilometres NOTIFY changed FINAL)    ///< otherwise miles
    Q_PROPERTY(QString keys MEMBER m_keys NOTIFY changed FINAL)             ///< digits
    Q_PROPERTY(QString testMonths MEMBER m_testMonths NOTIFY changed FINAL) ///< digits or empty
    /// Size and service description that the car asks for: "205/55 R16 91V"; empty: not known.
    Q_PROPERTY(QString frontTyre MEMBER m_frontTyre NOTIFY changed FINAL)
    Q_PROPERTY(QString rearTyre MEMBER m_rearTyre NOTIFY changed FINAL) ///< where it is another
    Q_PROPERTY(ramplight::Choices* shapes READ shapes CONSTANT FINAL)
    Q_PROPERTY(ramplight::Choices* facts READ facts CONSTANT FINAL) ///< several
    /// What keeps it from being saved, as far as the form can tell; empty: it can be tried.
    Q_PROPERTY(QString fault READ fault NOTIFY changed FINAL)
    /// What was entered before is said otherwise now.
    Q_PROPERTY(bool contradicts READ contradicts NOTIFY changed FINAL)

public:
    explicit IdentityDraft(QObject* parent = nullptr);

    [[nodiscard]] Choices* shapes() { return &m_shapes; }
    [[nodiscard]] Choices* facts() { return &m_facts; }
    [[nodiscard]] QString fault() const;
    [[nodiscard]] bool contradicts() const;
    [[nodiscard]] QString vinFault() const;
    [[nodiscard]] QString vinNote() const;

    Q_INVOKABLE void clear();
    /// Something was entered beside the VIN.
    [[nodiscard]] bool isBegun() const;

    [[nodiscard]] Identity identity() const;
    [[nodiscard]] CarFacts carFacts() const;
    void start(const Identity& identity, const CarFacts& facts);
    /// As they were when it was started.
    [[nodiscard]] const Identity& identityBefore() const { return m_identityBefore; }
    [[nodiscard]] const CarFacts& factsBefore() const { return m_before; }

signals:
    void changed();

private:
    QString m_stockNumber;
    QString m_registration;
    QString m_vin;
    QString m_make;
    QString m_model;
    QString m_colour;
    QString m_paintCode;
    QString m_odometer;
    bool m_kilometres = false;
    QString m_keys;
    QString m_testMonths;
    QString m_frontTyre;
    QString m_rearTyre;
    Choices m_shapes;
    Choices m_facts;
    Identity m_identityBefore;
    CarFacts m_before;
};

} // namespace ramplight
