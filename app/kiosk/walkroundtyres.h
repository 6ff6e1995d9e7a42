// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/carview.h"

#include <QObject>
#include <QtQmlIntegration>

#include <array>

namespace ramplight {

struct WalkTyreRow
{
    QString placeId;
    QString title;         ///< "near side front tyre"
    QStringList readings;  ///< inner, centre, outer: "4.5", "4" while it is typed, or empty
    int point = -1;        ///< which of them the next digit goes to; -1: another tyre's turn
    bool askew = false;    ///< the drawing shows outer first (a left tyre's outside is on the left)
    QString lowWords;      ///< what a low reading opens, at once; empty
    QString codeWords;     ///< what was typed of the date code; empty
    bool recorded = false; ///< in the ledger as it is shown

    [[nodiscard]] QString key() const { return placeId; }
    friend bool operator==(const WalkTyreRow&, const WalkTyreRow&) = default;
};

class WalkTyres : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the walk-round")

public:
    explicit WalkTyres(QObject* parent = nullptr);
    void setRows(std::vector<WalkTyreRow> rows);
    [[nodiscard]] const std::vector<WalkTyreRow>& rows() const;
};

/// Twelve tread readings on one pad: two digits each (4 5 is 4.5 mm), four tyres in the order of a
/// walk round the car, each across from inner to outer, going on by themselves. A tyre whose three
/// readings are there is handed on with `complete`. GUI thread.
class TyrePad : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the walk-round")
    Q_PROPERTY(ramplight::WalkTyres* tyres READ tyres CONSTANT FINAL)
    /// The tyre whose turn it is, or empty when all readings are there.
    Q_PROPERTY(QString placeId READ placeId NOTIFY changed FINAL)
    Q_PROPERTY(QString title READ title NOTIFY changed FINAL)
    /// "inner", "centre", "outer"
    Q_PROPERTY(QString pointWords READ pointWords NOTIFY changed FINAL)
    /// "4.5", "4._": what stands in the window of the pad.
    Q_PROPERTY(QString shown READ shown NOTIFY changed FINAL)
    Q_PROPERTY(int taken READ taken NOTIFY changed FINAL) ///< readings that are there, of 12
    /// The lowest tread of the house, in words: "at least 3.0 mm".
    Q_PROPERTY(QString limitWords READ limitWords NOTIFY changed FINAL)

public:
    TyrePad(CarView& car, SiteBook& book, const Catalogue& catalogue, QObject* parent = nullptr);

    [[nodiscard]] WalkTyres* tyres() { return &m_tyres; }
    [[nodiscard]] QString placeId() const;
    [[nodiscard]] QString title() const;
    [[nodiscard]] QString pointWords() const;
    [[nodiscard]] QString shown() const;
    [[nodiscard]] int taken() const;
    [[nodiscard]] QString limitWords() const;

    /// 0 to 9.
    Q_INVOKABLE void strike(int digit);
    /// Takes the last digit or reading back.
    Q_INVOKABLE void goBack();
    /// The tyre is measured (again) from its first reading.
    Q_INVOKABLE void goTo(const QString& placeId);

    /// What is known of the car's tyres; forgets what was half typed on another car.
    void begin();
    void rebuild();

signals:
    void changed();
    void complete(const ramplight::PlaceId& place, const ramplight::Tread& tread);

private:
    static constexpr int points = 3;
    struct Tyre
    {
        PlaceId place;
        std::array<std::optional<int>, points> tenths;
    };

    [[nodiscard]] Tyre& tyre() { return m_measured.at(static_cast<std::size_t>(m_at / points)); }
    void goOn();

    CarView& m_car;
    SiteBook& m_book;
    const Catalogue& m_catalogue;
    WalkTyres m_tyres;
    std::array<Tyre, 4> m_measured;
    int m_at = 0;               ///< reading whose turn it is; 12: all are there
    std::optional<int> m_whole; ///< the digit before the point, while the second is missing
};

} // namespace ramplight
