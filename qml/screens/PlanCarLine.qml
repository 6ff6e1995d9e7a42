// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// A car of the plan: promised, ready, how sure, and of a late one why.
//   required: the roles of PlanCars;  days: of the plan, for the spread;  inset: of what stands on it,
//   as of the days above;  open: why is shown
Touchable {
    id: root

    required property string carId
    required property string stockNumber
    required property string makeModel
    required property string promisedWords
    required property string headWords
    required property string sureWords
    required property bool late
    required property bool spread
    required property string whyWords
    required property real promisedAt
    required property real earlyAt
    required property real readyAt
    required property real sureAt
    required property int days
    property bool open: false

    required property real inset

    spoken: stockNumber
    implicitHeight: (why.visible ? why.y + why.height : line.y + line.height) + Theme.mm(5)

    Rectangle {
        anchors.fill: parent
        radius: Theme.radius
        color: root.pressed ? Theme.sunk : Theme.paper
    }

    Label {
        id: stock

        x: root.inset
        y: Theme.mm(4)
        text: root.stockNumber
        role: Label.Title
        strong: true
    }

    Rectangle {
        x: stock.x
        y: stock.y + stock.height - Theme.line
        width: stock.width
        height: Theme.thickLine
        visible: root.late
        color: Theme.ink
    }

    Label {
        id: ready

        anchors.baseline: stock.baseline
        x: Theme.mm(62)
        width: root.width - x - root.inset
        text: root.headWords
        strong: root.late
        elide: Text.ElideRight
    }

    Label {
        id: sure

        x: ready.x
        y: ready.y + ready.height
        width: ready.width
        text: root.sureWords.length === 0 ? root.makeModel : root.sureWords + " · " + root.makeModel
        role: Label.Detail
        muted: true
        elide: Text.ElideRight
    }

    // From the time by which it is hardly ever ready to the one by which it nearly always is.
    Item {
        id: line

        readonly property real day: width / Math.max(1, root.days)

        x: root.inset
        y: sure.y + sure.height + Theme.half
        width: root.width - 2 * root.inset
        height: Theme.mm(8)

        function at(place: real): real {
            return Math.max(0, Math.min(width, place * day))
        }

        Repeater {
            model: root.days + 1

            delegate: Rectangle {
                required property int index

                x: index * line.day - (index === root.days ? width : 0)
                width: Theme.line
                height: line.height
                color: Theme.rule
            }
        }

        Rectangle {
            visible: root.spread
            x: line.at(root.earlyAt)
            y: line.height / 2 - height / 2
            width: Math.max(Theme.mm(2), line.at(root.sureAt) - x)
            height: Theme.mm(2.4)
            radius: height / 2
            color: Theme.paperLine
        }

        Rectangle {
            visible: root.spread
            x: line.at(root.readyAt) - width / 2
            y: line.height / 2 - height / 2
            width: Theme.mm(4.4)
            height: width
            radius: width / 2
            color: Theme.ink
        }

        // What was promised: a post with a foot, at the end of its day.
        Rectangle {
            x: line.at(root.promisedAt) - (root.promisedAt * line.day >= line.width ? width : 0)
            visible: root.promisedWords.length > 0
            width: Theme.thickLine
            height: line.height
            color: Theme.ink

            Rectangle {
                anchors { bottom: parent.bottom; horizontalCenter: parent.horizontalCenter }
                width: Theme.mm(3.4)
                height: Theme.thickLine
                color: Theme.ink
            }
        }
    }

    Label {
        id: why

        x: root.inset
        y: line.y + line.height + Theme.half
        width: root.width - 2 * root.inset
        visible: root.open
        text: root.whyWords.length > 0 ? root.whyWords : root.promisedWords.length > 0 ? qsTr("In time as it stands.") : qsTr("Nothing was promised.")
        wrapMode: Text.WordWrap
    }
}
