// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// A car that would be ready at another time: as planned, and then.
//   required: roles of WhatIfCars;  nowX, thenX: where the two columns begin
Item {
    id: root

    required property string carId
    required property string stockNumber
    required property string makeModel
    required property string nowWords
    required property string nowSureWords
    required property string thenWords
    required property string thenSureWords
    required property string byWords
    required property string promiseWords
    required property bool lateNow
    required property bool lateThen

    required property real nowX
    required property real thenX

    implicitHeight: promise.y + promise.height + Theme.mm(3)

    Rectangle {
        width: parent.width
        height: Theme.line
        color: Theme.rule
    }

    Label {
        id: stock

        y: Theme.mm(3)
        width: root.nowX - Theme.half
        text: root.stockNumber
        role: Label.Title
        strong: true
        fontSizeMode: Text.HorizontalFit
        minimumPixelSize: Theme.detailSize
    }

    // As it stands in the plan: late cars are underlined.
    Rectangle {
        x: root.nowX
        y: now.y + now.baselineOffset + Theme.mm(1.4)
        width: Math.min(now.implicitWidth, now.width)
        height: Theme.thickLine
        visible: root.lateNow
        color: Theme.ink
    }

    Rectangle {
        x: root.thenX
        y: then.y + then.baselineOffset + Theme.mm(1.4)
        width: Math.min(then.implicitWidth, then.width)
        height: Theme.thickLine
        visible: root.lateThen
        color: Theme.ink
    }

    Label {
        id: now

        anchors.baseline: stock.baseline
        x: root.nowX
        width: root.thenX - root.nowX - Theme.half
        text: root.nowWords
        elide: Text.ElideRight
    }

    Label {
        id: then

        anchors.baseline: stock.baseline
        x: root.thenX
        width: by.x - root.thenX - Theme.half
        text: root.thenWords
        strong: true
        elide: Text.ElideRight
    }

    Label {
        id: by

        anchors { right: parent.right; baseline: stock.baseline }
        text: root.byWords
    }

    Label {
        id: nowSure

        x: root.nowX
        y: now.y + now.height + Theme.line
        width: root.thenX - root.nowX - Theme.half
        text: root.nowSureWords
        role: Label.Detail
        muted: true
        wrapMode: Text.WordWrap
    }

    Label {
        id: thenSure

        x: root.thenX
        y: nowSure.y
        width: root.width - root.thenX
        text: root.thenSureWords
        role: Label.Detail
        muted: true
        wrapMode: Text.WordWrap
    }

    Label {
        id: promise

        y: Math.max(nowSure.y + nowSure.height, thenSure.y + thenSure.height) + Theme.line
        width: root.width
        text: root.makeModel.length > 0 ? root.makeModel + " · " + root.promiseWords : root.promiseWords
        role: Label.Detail
        muted: true
        elide: Text.ElideRight
    }
}
